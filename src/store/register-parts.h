/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pieces of register XML that stand in more than one place: a point (airframe
 * template, survey `point` entry), a limit row (limit set, a point's own), bounds
 * (limit row, disposition), and the located error every reader uses.
 *
 *   <point id number class zone limit sta bl wl condition sample-every widen arrangement hazards independent panel
 *          template>
 *     <from/><to/><why/><watch/><basis/><conductor area-um2 length-um resistivity-fohm-m/><own-limit …as row/>
 *     <at view x y home drawn-zone/>…
 *   </point>
 *   <row code class method volts scope connectors mounting pair default verified>
 *     <covers/><in-service>…bounds</in-service><stricter>…bounds</stricter>
 *     <source document revision paragraph checked-by/><note/>
 *   </row>
 *   bounds: <upper relation="le" value="2.5" unit="mOhm"/><lower …/>
 */
#pragma once

#include "core/point-spec.h"
#include "store/xml.h"

G_BEGIN_DECLS

/** bond_sense_error: sets BOND_STORE_ERROR_SENSE: "FILE:LINE: message"; the message names cause and next step. */
void bond_sense_error (GError **error, const char *file, xmlNode *node, const char *format, ...) G_GNUC_PRINTF (4, 5);
/** BondWordParser: the shape of the core's word parsers: FALSE when @text is not one of the words. */
typedef gboolean (*BondWordParser) (const char *text, gpointer value);
/* Readers of one attribute. Absent: TRUE and @value as it was. Not usable: FALSE with a located error. */
gboolean bond_read_word (xmlNode *node, const char *name, const char *file, BondWordParser parse, gpointer value,
                         GError **error);
/** bond_read_number: a plain decimal of at most 1e6 either way; @known says whether it was there. */
gboolean bond_read_number (xmlNode *node, const char *name, const char *file, double *value, gboolean *known,
                           GError **error);
/** bond_read_whole: 0…@most. */
gboolean bond_read_whole (xmlNode *node, const char *name, const char *file, int most, int *value, GError **error);
/** bond_read_needed: an attribute that must be there and not empty. (transfer full) (nullable) */
char *bond_read_needed (xmlNode *node, const char *name, const char *file, GError **error);

/** bond_bounds_write: fills @node with <upper> and <lower>; a bound with relation NONE is left out. */
void bond_bounds_write (xmlNode *node, const BondBounds *bounds);
/** bond_bounds_read: FALSE with a located error on zero, negative or non-decimal values, or lower ≥ upper. */
gboolean bond_bounds_read (xmlNode *node, const char *file, BondBounds *bounds, GError **error);

/** bond_limit_row_write: appends element @name ("row", "own-limit") to @parent, in the parent's namespace. */
xmlNode *bond_limit_row_write (xmlNode *parent, const char *name, const BondLimitRow *row);
/** bond_limit_row_read: (transfer full), NULL with a located error. */
BondLimitRow *bond_limit_row_read (xmlNode *node, const char *file, GError **error);

/**
 * bond_point_spec_write: appends <point> to @parent, in the parent's namespace.
 * @with_id: TRUE in an airframe; FALSE in a survey, where the entry carries the id and template="yes" says where it is
 * from
 */
xmlNode *bond_point_spec_write (xmlNode *parent, const BondPointSpec *spec, gboolean with_id);
/** bond_point_spec_read: @id: (nullable): the id when the element stands in an entry. (transfer full), NULL with a
 * located error. */
BondPointSpec *bond_point_spec_read (xmlNode *node, const char *id, const char *file, GError **error);

G_END_DECLS
