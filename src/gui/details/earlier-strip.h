/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One point over the years: the limit as a line that stays where it is, results as
 * marks at their height, oldest at the left.  The height is logarithmic, so that a
 * joint twice as far from its limit stands the same step further wherever it is.
 */
#pragma once

#include "core/limit.h"
#include "report/marks.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * BondStripTick: one result. Strings owned.
 * @nohm: its height, nano-ohms; ≤ 0 stands at the foot
 * @value: its figure, without the unit; @date; @note: (nullable): a third line
 * @reworked: something was done to the joint since the tick before
 */
typedef struct
{
  BondOhm nohm;
  char *value, *date, *note;
  BondMark mark;
  gboolean reworked;
} BondStripTick;
BondStripTick *bond_strip_tick_new (BondOhm nohm, const char *value, const char *date, BondMark mark);
void bond_strip_tick_free (gpointer tick);

#define BOND_TYPE_EARLIER_STRIP (bond_earlier_strip_get_type ())
G_DECLARE_FINAL_TYPE (BondEarlierStrip, bond_earlier_strip, BOND, EARLIER_STRIP, GtkWidget)

GtkWidget *bond_earlier_strip_new (void);
/**
 * bond_earlier_strip_set:
 * @ticks: (transfer full): GPtrArray of BondStripTick, oldest first; where there is no room for all, the newest show
 * @bounds: (nullable): copied; NULL = no limit
 */
void bond_earlier_strip_set (BondEarlierStrip *strip, GPtrArray *ticks, const BondBounds *bounds);
/** bond_earlier_strip_height: where @nohm stands, 0 = at the top, 1 = at the foot; pure. */
double bond_earlier_strip_height (double nohm, double limit_nohm);

G_END_DECLS
