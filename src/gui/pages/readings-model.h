/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows of the Readings page: every place of the survey in walking order under
 * headers of its zones, and which of them search, chip and choices let through.
 */
#pragma once

#include "gui/pages/readings-row.h"
#include "report/marks.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define BOND_TYPE_READINGS_MODEL (bond_readings_model_get_type ())
G_DECLARE_FINAL_TYPE (BondReadingsModel, bond_readings_model, BOND, READINGS_MODEL, GObject)
/*
 * Signals
 *   "counts-changed" ()    counts, or what is shown
 *   "choices-changed" ()   classes, zones or meters there are
 *   "units-changed" ()     the unit most rows have, or whether all have it
 *   "recorded" ()          the survey changed: figures may stand in another order
 */

/** BondReadingsChoice: what can be chosen from besides the verdict. */
typedef enum
{
  BOND_READINGS_CLASS,
  BOND_READINGS_ZONE,
  BOND_READINGS_METER,
} BondReadingsChoice;
#define BOND_N_READINGS_CHOICES 3

#define BOND_READINGS_ALL (-1)

BondReadingsModel *bond_readings_model_new (BondSurvey *survey);
BondSurvey *bond_readings_model_get_survey (BondReadingsModel *model);
/** bond_readings_model_get_list: rows that pass the filter, in walking order. (transfer none) */
GListModel *bond_readings_model_get_list (BondReadingsModel *model);
/** bond_readings_model_settle: what the survey told since is counted and filtered now; else it is when idle. */
void bond_readings_model_settle (BondReadingsModel *model);
/** bond_readings_model_get_unit: the unit of result, U and limit that most rows have; @mixed: not all of them. */
BondUnit bond_readings_model_get_unit (BondReadingsModel *model, gboolean *mixed);
/** bond_readings_model_set_grouped: with headers of zones; only in walking order. */
void bond_readings_model_set_grouped (BondReadingsModel *model, gboolean grouped);
void bond_readings_model_set_search (BondReadingsModel *model, const char *text);
/** bond_readings_model_set_mark: a #BondMark or BOND_READINGS_ALL. */
void bond_readings_model_set_mark (BondReadingsModel *model, int mark);
/** bond_readings_model_set_choice: NULL = all. */
void bond_readings_model_set_choice (BondReadingsModel *model, BondReadingsChoice choice, const char *key);
/** bond_readings_model_clear: lets everything through. */
void bond_readings_model_clear (BondReadingsModel *model);
/** bond_readings_model_get_keys: sorted keys there are of @choice, NULL-terminated. (transfer full) */
char **bond_readings_model_get_keys (BondReadingsModel *model, BondReadingsChoice choice);
/** bond_readings_model_key_name: how a key is called on the screen. (transfer full) */
char *bond_readings_model_key_name (BondReadingsModel *model, BondReadingsChoice choice, const char *key);
/** bond_readings_model_count: rows with @mark, or all. */
guint bond_readings_model_count (BondReadingsModel *model, int mark);
guint bond_readings_model_get_shown (BondReadingsModel *model);
/** bond_readings_model_get_measured: any row has a reading. */
gboolean bond_readings_model_get_measured (BondReadingsModel *model);
/** bond_readings_model_filter_words: the filter in words; NULL = none. (transfer full) */
char *bond_readings_model_filter_words (BondReadingsModel *model);

G_END_DECLS
