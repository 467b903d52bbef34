/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A look over the bytes before an XML parser sees them: it refuses what libxml2
 * would be slow or unsafe with, and notes where the children of the root stand, so
 * that closed sittings can be copied byte for byte.  It judges nothing else; what
 * it lets through may still be malformed.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/** BOND_SCAN_MAX_TAG: longest start tag let through, in bytes. */
#define BOND_SCAN_MAX_TAG (1024 * 1024)
/** BOND_SCAN_MAX_ATTRIBUTES: most attributes of one element (libxml2 2.9 compares each with each). */
#define BOND_SCAN_MAX_ATTRIBUTES 256

/** BondSpan: bytes [@start, @end) of one child of the root, from its `<` to behind its last `>`; @name starts behind
 * `<`. */
typedef struct
{
  gsize start, end;
  gsize name_length;
} BondSpan;

/** BondScan: @root_end: behind the root's start tag; @children: of BondSpan, in file order. */
typedef struct
{
  gsize root_end;
  GArray *children;
} BondScan;

/**
 * bond_scan_xml:
 * @bytes: UTF-8 text; need not end in NUL
 * @scan: (out caller-allocates): clear with bond_scan_clear(), also after a failure
 * @line: (out): line of the trouble, 0 when it is the file as a whole
 *
 * Returns: NULL when the parser may have it, else a translated sentence with cause and next step. (transfer full)
 */
char *bond_scan_xml (const char *bytes, gsize length, BondScan *scan, int *line);
void bond_scan_clear (BondScan *scan);
/** bond_span_is: the element of @span is called @name. */
gboolean bond_span_is (const BondSpan *span, const char *bytes, const char *name);
/** bond_scan_line: line number (from 1) of @offset. */
int bond_scan_line (const char *bytes, gsize offset);

G_END_DECLS
