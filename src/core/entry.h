/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One entry: one act of one person, whole or not at all.  A survey is nothing but
 * its entries; everything else is computed from them.  Entries are built, handed
 * to a sink that makes them durable, and never changed afterwards.
 */
#pragma once

#include "core/airframe.h"
#include "core/instrument.h"
#include "core/person.h"
#include "core/reading-text.h"

G_BEGIN_DECLS

typedef enum
{
  BOND_ENTRY_CREATE,
  BOND_ENTRY_ADOPT,
  BOND_ENTRY_POINT,
  BOND_ENTRY_PLACE,
  BOND_ENTRY_READING,
  BOND_ENTRY_VOID,
  BOND_ENTRY_CORRECT,
  BOND_ENTRY_MOVE,
  BOND_ENTRY_TAKE_BACK,
  BOND_ENTRY_REWORK,
  BOND_ENTRY_CONDITION,
  BOND_ENTRY_STATE,
  BOND_ENTRY_VISUAL,
  BOND_ENTRY_DISPOSITION,
  BOND_ENTRY_ATTACH,
  BOND_ENTRY_SEEN, /* notice: a steady live reading that was not recorded */
  BOND_ENTRY_NOTE,
  BOND_ENTRY_DEFECT,       /* a defect card was raised for a reject */
  BOND_ENTRY_DEVIATION,    /* a named person accepts a reading taken in another measuring state than the row asks */
  BOND_ENTRY_REFINISH,     /* the stripped joint was protected again */
  BOND_ENTRY_PERMIT,       /* a place where vapour or electro-explosive devices may be was cleared for measuring */
  BOND_ENTRY_CLOSE_PERMIT, /* work there has ended: clips and leads counted out */
  BOND_ENTRY_REFERENCE,    /* notice: the reference clip was moved */
  BOND_ENTRY_CAUTION,      /* notice: cautions were read and acknowledged */
  BOND_ENTRY_HANDOVER,     /* notice: one shift gave the survey to the next */
} BondEntryKind;
#define BOND_N_ENTRY_KINDS 25

/** BondEntryKindInfo: one row a kind; @content FALSE = notice kind, changes no result. */
typedef struct
{
  const char *name; /* file name: "take-back" */
  BondEntryKind kind;
  gboolean content;
  gboolean needs_point;
  gboolean needs_ref;
} BondEntryKindInfo;
const BondEntryKindInfo *bond_entry_kind_info (BondEntryKind kind);
gboolean bond_entry_kind_parse (const char *text, BondEntryKind *kind);

typedef enum
{
  BOND_DIRECTION_FORWARD,
  BOND_DIRECTION_REVERSE,
  BOND_DIRECTION_REPEAT
} BondDirection;
const char *bond_direction_file_name (BondDirection direction);
const char *bond_direction_name (BondDirection direction); /* translated */
gboolean bond_direction_parse (const char *text, BondDirection *direction);

/** BondVoidReason: the only ways in which a reading beyond its limit leaves the result (poor contact is not one). */
typedef enum
{
  BOND_VOID_NONE,
  BOND_VOID_WRONG_POINT,
  BOND_VOID_TYPING_SLIP,
  BOND_VOID_WRONG_UNIT,
  BOND_VOID_INSTRUMENT_FAULT,
  BOND_VOID_OTHER, /* only for readings that conform or have no verdict; needs words */
} BondVoidReason;
const char *bond_void_reason_file_name (BondVoidReason reason);
const char *bond_void_reason_name (BondVoidReason reason); /* translated */
gboolean bond_void_reason_parse (const char *text, BondVoidReason *reason);

typedef enum
{
  BOND_POINT_MARK_NONE, /* takes a state back to what the readings say */
  BOND_POINT_MARK_NOT_ACCESSIBLE,
  BOND_POINT_MARK_NOT_FITTED,
  BOND_POINT_MARK_NOT_APPLICABLE,
  BOND_POINT_MARK_NOT_IN_SAMPLE,
} BondPointMark;
const char *bond_point_mark_file_name (BondPointMark mark);
gboolean bond_point_mark_parse (const char *text, BondPointMark *mark);

typedef enum
{
  BOND_DISPOSITION_CARRIED_FORWARD,
  BOND_DISPOSITION_DEFERRED,
  BOND_DISPOSITION_ACCEPTED, /* by engineering disposition */
} BondDispositionKind;
const char *bond_disposition_file_name (BondDispositionKind kind);
gboolean bond_disposition_parse (const char *text, BondDispositionKind *kind);

/* What was done: a set. */
typedef enum
{
  BOND_REWORK_SURFACES_CLEANED = 1 << 0,
  BOND_REWORK_TORQUE_RESTORED = 1 << 1,
  BOND_REWORK_JUMPER_REPLACED = 1 << 2,
  BOND_REWORK_FINISH_REAPPLIED = 1 << 3,
  BOND_REWORK_OTHER = 1 << 4,
} BondReworkDone;
#define BOND_N_REWORK_DONE 5
const char *bond_rework_done_file_name (BondReworkDone one);
const char *bond_rework_done_name (BondReworkDone one); /* translated */
gboolean bond_rework_done_parse (const char *text, BondReworkDone *one);

typedef enum
{
  BOND_VISUAL_GOOD,
  BOND_VISUAL_CORROSION,
  BOND_VISUAL_PAINT,
  BOND_VISUAL_LOOSE,
  BOND_VISUAL_STRANDS,
  BOND_VISUAL_LEG_BROKEN,
  BOND_VISUAL_MISSING,
  BOND_VISUAL_PRESENT, /* a jumper that must be absent is there */
  BOND_VISUAL_OTHER,
  BOND_VISUAL_SEALANT,
  BOND_VISUAL_FILM,
  BOND_VISUAL_NOTHING, /* nothing found that explains the value */
} BondVisualFinding;
#define BOND_N_VISUAL_FINDINGS 12
const char *bond_visual_file_name (BondVisualFinding finding);
const char *bond_visual_name (BondVisualFinding finding); /* translated */
gboolean bond_visual_parse (const char *text, BondVisualFinding *finding);

typedef enum
{
  BOND_ADOPT_AIRFRAME,
  BOND_ADOPT_LIMIT_SET,
  BOND_ADOPT_INSTRUMENT,
  BOND_ADOPT_PERSON,
  BOND_ADOPT_HOUSE,
  BOND_ADOPT_EARLIER,
} BondAdoptKind;

/** BondReading: payload of reading, correct and seen. Strings owned, NULL where not stated. */
typedef struct
{
  BondDirection direction;
  char *of;   /* entry id of the first reading of this seating; NULL when this is it */
  char *text; /* as typed, without unit */
  BondUnit unit;
  BondQuantity quantity;
  gint64 nanovolt, microampere; /* both not 0 when typed as voltage at current */
  char *instrument;
  char *range;
  char *leads;
  char *check;        /* entry id of the meter check in force */
  char *via;          /* "typed" "file" "live" */
  char *said;         /* verdict shown at that moment, see bond_point_said() */
  int planned;        /* repeats planned before the first was taken; 0 or 1 = single */
  gboolean confirmed; /* below resolution, zero or lower than the metal alone: probes are on two parts */
  BondConnectors connectors;
  BondMounting mounting;
  char *reference_end; /* where the reference clip is, NULL = not stated */
} BondReading;

typedef struct
{
  char *aircraft_type, *serial, *registration;
  char *title, *order, *trigger, *customer, *location;
  char *card, *card_revision;              /* maintenance card the survey follows */
  char *hours, *cycles;                    /* of the aircraft, as stated: text */
  char *power, *fuel;                      /* state of power and fuel, in words */
  char *data_checked_by, *data_checked_on; /* who saw that the approved data is current, and on which day (ISO date) */
  char *scope;                             /* zones in scope, parted by single spaces; NULL = all */
  BondRule rule;
  gboolean invented; /* demo data, marked so on every page */
} BondCreate;

typedef struct
{
  BondAdoptKind what;
  gpointer object; /* BondAirframe, BondLimitSet, BondInstrument, BondPerson, BondHouse or BondEarlier; one reference */
} BondAdopt;

/** BondPlace: one place of a point (bolt, leg). The id of the place is entry.place. @in_sample FALSE = not asked. */
typedef struct
{
  char *label;
  gboolean in_sample;
} BondPlaceSpec;

typedef struct
{
  BondVoidReason why;
} BondVoid;
typedef struct
{
  BondVoidReason why;
  BondReading reading;
} BondCorrect;
typedef struct
{
  char *to_point;
  char *to_place;
  BondVoidReason why;
} BondMove;
typedef struct
{
  BondVoidReason why;
} BondTakeBack;
typedef struct
{
  guint done;
  char *reference;
  char *note;
  char *done_by;
  BondVisualFinding found;
} BondRework;
typedef struct
{
  BondCondition condition;
  char *reference;
} BondConditionChange;
typedef struct
{
  BondPointMark mark;
} BondStateChange;
typedef struct
{
  BondVisualFinding finding;
  gboolean reject;
  int percent;
} BondVisual; /* percent: e.g. broken strands, -1 = none */
typedef struct
{
  BondDispositionKind kind;
  char *reference;   /* needed */
  char *holder;      /* certifying staff, or approval holder; needed */
  char *until;       /* ISO date, check, or "no end"; needed */
  char *first_date;  /* first date of the defect; needed for carried forward and deferred */
  BondBounds bounds; /* accepted: the new limit; relation NONE on both sides = none */
} BondDisposition;
typedef struct
{
  char *sha256;
  char *name;
  char *type;
  gint64 size;
} BondAttach;

typedef struct
{
  char *text; /* needed */
} BondNote;

typedef struct
{
  char *card;  /* needed: number of the defect card */
  char *words; /* NULL = none */
} BondDefect;

/** BondDeviation: entry.ref is the reading it accepts, entry.reason says why. */
typedef struct
{
  char *holder; /* needed: name of who accepts */
} BondDeviation;

typedef struct
{
  char *how;       /* finish applied, in words; NULL = not stated */
  char *reference; /* card; NULL = none */
  char *done_by;   /* NULL = the person of the entry */
} BondRefinish;

/* What can hurt at a place: a set. */
typedef enum
{
  BOND_HAZARD_FUEL_VAPOUR = 1 << 0,
  BOND_HAZARD_EXPLOSIVE = 1 << 1, /* electro-explosive devices near */
  BOND_HAZARD_COMPOSITE = 1 << 2, /* sharp probes or current can harm the structure */
} BondHazard;
#define BOND_N_HAZARDS 3
const char *bond_hazard_file_name (BondHazard one); /* "fuel-vapour" "explosive-devices" "composite" */
const char *bond_hazard_name (BondHazard one);      /* translated */
gboolean bond_hazard_parse (const char *text, BondHazard *one);
/** bond_hazards_parse: names parted by single spaces, NULL or "" = none. FALSE on an unknown name. */
gboolean bond_hazards_parse (const char *text, guint *set);
/** bond_hazards_to_file: (transfer full): NULL for none. */
char *bond_hazards_to_file (guint set);

/**
 * BondPermit: leave to measure where a hazard is. For fuel vapour number, gas_at, tester, valid_until and both figures
 * are needed; for explosive devices the named authority, and a number where there is one.
 * @zones: zone numbers parted by single spaces; a zone stands for those within it
 * @vapour_permille: share of the lower explosive limit, in thousandths; @oxygen_permille: of the air; −1 = not stated
 * @gas_at, @valid_until: ISO 8601 with offset
 * @counted_in: clips and leads taken in; −1 = not counted
 */
typedef struct
{
  BondHazard hazard;
  char *number, *zones, *tester, *authority, *gas_at, *valid_until;
  int vapour_permille, oxygen_permille;
  int counted_in;
} BondPermit;

/** BondClosePermit: entry.ref is the permit. @counted_out differs from what went in: entry.reason says what of it. */
typedef struct
{
  int counted_out;
} BondClosePermit;

typedef struct
{
  char *from, *to; /* where the reference clip was (NULL = not stated) and is */
} BondReferenceMove;

/** BondCautionRead: entry.by acknowledged them; @shown: codes, @zones: zone numbers, each parted by single spaces. */
typedef struct
{
  char *shown, *zones;
} BondCautionRead;

/**
 * BondHandover: entry.by hands over, @to (person id) accepts by name. Words as both agreed to them.
 * @bare: points whose joint is open and bare, "541-J02 2026-11-24T10:15:00+01:00" parted by "; "
 */
typedef struct
{
  char *to;
  char *done, *to_do, *bare, *panels, *meter, *notes;
  int points_done, points_to_do;
} BondHandover;

/**
 * BondEntry: strings owned.
 * @id: SITTING-N; @t: order of replay; @at: ISO 8601 with offset; @by: person id
 * @entered_by, @under: NULL unless they differ / supervised
 * @digest: chain digest (64 hex), set by the sink; NULL until then
 * @said_order: private
 */
typedef struct
{
  int ref_count;
  BondEntryKind kind;
  char *id, *sitting;
  int n;
  gint64 t;
  char *at, *by, *entered_by, *under;
  char *point, *place, *ref, *reason;
  char *digest;
  union
  {
    BondCreate create;
    BondAdopt adopt;
    BondPointSpec *spec;
    BondPlaceSpec place_spec;
    BondReading reading; /* reading, seen */
    BondVoid voided;
    BondCorrect correct;
    BondMove move;
    BondTakeBack take_back;
    BondRework rework;
    BondConditionChange condition;
    BondStateChange state;
    BondVisual visual;
    BondDisposition disposition;
    BondAttach attach;
    BondNote note;
    BondDefect defect;
    BondDeviation deviation;
    BondRefinish refinish;
    BondPermit permit;
    BondClosePermit close_permit;
    BondReferenceMove reference_move;
    BondCautionRead caution;
    BondHandover handover;
  };
} BondEntry;

BondEntry *bond_entry_new (BondEntryKind kind);
BondEntry *bond_entry_ref (BondEntry *entry);
void bond_entry_unref (BondEntry *entry);
/** bond_reading_set_typed: takes the figures of @value (copied) over. */
void bond_reading_set_typed (BondReading *reading, const BondTypedValue *value);
void bond_reading_copy (BondReading *to, const BondReading *from);
void bond_reading_clear (BondReading *reading);
/** bond_entry_adopt_new: an adopt entry for @object; takes a new reference. */
BondEntry *bond_entry_adopt_new (BondAdoptKind what, gpointer object);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BondEntry, bond_entry_unref)

G_END_DECLS
