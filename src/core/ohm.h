/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Resistance as an exact whole number of nano-ohms.
 *
 * A verdict must not hang on how a binary fraction rounds, so every resistance
 * that reaches a comparison is a signed 64-bit count of nano-ohms (±9.2 GΩ).
 * This file turns text into that count and back.  What a typed entry *means*
 * (pair, over-range, jump) is left to core/reading-text.h.
 */
#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/** BondOhm: a resistance in nano-ohms. */
typedef gint64 BondOhm;

#define BOND_NOHM_PER_MICROOHM G_GINT64_CONSTANT (1000)
#define BOND_NOHM_PER_MILLIOHM G_GINT64_CONSTANT (1000000)
#define BOND_NOHM_PER_OHM G_GINT64_CONSTANT (1000000000)

typedef enum
{
  BOND_UNIT_MICROOHM,
  BOND_UNIT_MILLIOHM,
  BOND_UNIT_OHM,
  BOND_UNIT_KILOOHM,
  BOND_UNIT_MEGOHM,
} BondUnit;
#define BOND_N_UNITS 5

/** BondQualifier: what a display that shows no figure said instead. */
typedef enum
{
  BOND_QUALIFIER_NONE,  /* an ordinary figure */
  BOND_QUALIFIER_OVER,  /* above the end of the range: "> X", "OL" */
  BOND_QUALIFIER_BELOW, /* below the display step: "< X" */
} BondQualifier;

/**
 * BondQuantity: a resistance as read.
 * @nohm: nano-ohms, rounded half-even where the exact figure is finer
 * @rest: sign (-1, 0, 1) of (exact value − @nohm); not 0 only for a quotient of
 *   voltage and current that is no whole number of nano-ohms
 * @qualifier: with OVER or BELOW, @nohm is the X of "> X" or "< X"
 */
typedef struct
{
  BondOhm nohm;
  gint8 rest;
  BondQualifier qualifier;
} BondQuantity;

#define BOND_OHM_ERROR (bond_ohm_error_quark ())
typedef enum
{
  BOND_OHM_ERROR_EMPTY,      /* nothing typed */
  BOND_OHM_ERROR_NOT_NUMBER, /* not a number as a whole */
  BOND_OHM_ERROR_TWO_MARKS,  /* two decimal marks */
  BOND_OHM_ERROR_AMBIGUOUS,  /* "1,250" where ',' is not the locale's own mark */
  BOND_OHM_ERROR_UNIT,       /* unknown unit */
  BOND_OHM_ERROR_TOO_FINE,   /* finer than 1 nΩ */
  BOND_OHM_ERROR_TOO_LARGE,  /* does not fit ±9.2 GΩ */
} BondOhmError;
GQuark bond_ohm_error_quark (void);
/** bond_ohm_error_reason: what is wrong and what to do about it, translated, to follow the quoted text; static. */
const char *bond_ohm_error_reason (BondOhmError code);
/** bond_text_quote: @text as a message may repeat it: valid UTF-8, cut to 40 characters. (transfer full) */
char *bond_text_quote (const char *text);
/** bond_text_skip_spaces: the first character that is none of blank, tab and the no-break and thin spaces. */
const char *bond_text_skip_spaces (const char *text);
/** bond_text_trim: @text without those at either end. (transfer full) */
char *bond_text_trim (const char *text);
/** bond_text_is_blank: @text (nullable) is nothing but white space. */
gboolean bond_text_is_blank (const char *text);

/**
 * BondNumberFormat: which decimal mark a text is written with.
 * @mark: '.' or ',' – the mark of the reader's own locale
 * @other_is_decimal: the person has answered, for this walk, that the other
 *   mark followed by exactly three digits is a decimal mark too
 * @own_mark_only: any other mark is an error, as in files
 */
typedef struct
{
  char mark;
  gboolean other_is_decimal;
  gboolean own_mark_only;
} BondNumberFormat;

/** bond_number_format_file: the format of files: '.' and nothing else to ask. */
extern const BondNumberFormat bond_number_format_file;

/** bond_unit_nohm: nano-ohms in one @unit. */
BondOhm bond_unit_nohm (BondUnit unit);
/** bond_unit_symbol: "µΩ", "mΩ", "Ω", "kΩ", "MΩ" (U+00B5, U+03A9); static. */
const char *bond_unit_symbol (BondUnit unit);
/** bond_unit_file_name: "uOhm", "mOhm", "Ohm", "kOhm", "MOhm"; static, used in files. */
const char *bond_unit_file_name (BondUnit unit);
/** bond_unit_spoken: "micro-ohm" … translated, for names read aloud; static. */
const char *bond_unit_spoken (BondUnit unit);
/** bond_unit_parse: all accepted spellings (case-sensitive), whole text. FALSE if unknown. */
gboolean bond_unit_parse (const char *text, BondUnit *unit);

/**
 * bond_decimal_parse: exact decimal text to a scaled integer.
 * @text: whole text, sign allowed, no exponent, no grouping, ASCII digits only
 * @scale: how many units of the result one unit of the text is (e.g. 1000000 for mΩ → nΩ)
 *
 * Fails with #BondOhmError when anything is left over, or the result is not whole.
 */
gboolean bond_decimal_parse (const char *text, const BondNumberFormat *format, gint64 scale, gint64 *value,
                             GError **error);

/**
 * bond_ohm_parse: number with optional unit suffix, whole text.
 * @pinned: the unit when the text names none
 * @unit: (out) (optional): the unit used
 */
gboolean bond_ohm_parse (const char *text, BondUnit pinned, const BondNumberFormat *format, BondOhm *nohm,
                         BondUnit *unit, GError **error);

/**
 * bond_ohm_from_quotient: R = V / I.
 * @nanovolt: voltage in nV
 * @microampere: current in µA, not 0
 *
 * Rounded half-even to 1 nΩ with the sign of what was cut off in @rest, so that a
 * comparison is still exact.  Returns FALSE (BOND_OHM_ERROR_TOO_LARGE) on overflow.
 */
gboolean bond_ohm_from_quotient (gint64 nanovolt, gint64 microampere, BondQuantity *quantity, GError **error);

/** bond_ohm_from_double: an instrument's reply in ohms, half-even to 1 nΩ; FALSE for NaN, Inf, too large. */
gboolean bond_ohm_from_double (double ohm, BondOhm *nohm);

/** bond_ohm_to_file: plain decimal ohms with '.', exact, no trailing zeros ("0.0025"). (transfer full) */
char *bond_ohm_to_file (BondOhm nohm);

/**
 * bond_ohm_format: digits only, in @unit, with exactly @decimals decimals, half-even, U+2212 minus.
 * (transfer full)
 */
char *bond_ohm_format (BondOhm nohm, BondUnit unit, int decimals, char mark);

/** bond_ohm_format_exact: like bond_ohm_format() with at least @min_decimals and as many as the exact value has. */
char *bond_ohm_format_exact (BondOhm nohm, BondUnit unit, int min_decimals, char mark);

/** bond_ohm_best_unit: the unit in which @nohm reads easiest (limits and results of one row share one). */
BondUnit bond_ohm_best_unit (BondOhm nohm);

/**
 * bond_ratio_round: @numerator / @denominator to the nearest whole, half to even (ISO 80000-1:2009 B.3).
 * @denominator: > 0
 * @rest: (out) (optional): sign of (exact value − result)
 */
__int128 bond_ratio_round (__int128 numerator, __int128 denominator, int *rest);

/**
 * bond_ratio_format: @numerator / @denominator with exactly @decimals (0…15) decimals, half-even, U+2212 minus.
 * (transfer full)
 */
char *bond_ratio_format (__int128 numerator, __int128 denominator, int decimals, char mark);

/** bond_locale_mark: decimal mark of the running locale ('.' unless it is ','). Reads localeconv() only. */
char bond_locale_mark (void);

G_END_DECLS
