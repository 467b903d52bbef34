/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the two files of the page Surveys share: its parts, and what is done to files.
 */
#pragma once

#include "gui/start/rows.h"
#include "gui/start/surveys-page.h"

G_BEGIN_DECLS

#define BOND_PATIENCE_MS 1000

typedef enum
{
  BOND_FILTER_ALL,
  BOND_FILTER_OPEN,
  BOND_FILTER_LOOK,
} BondStartFilter;
#define BOND_N_START_FILTERS 3

struct _BondSurveysPage
{
  GtkBox parent_instance;
  BondApplication *application; /* outlives the page */
  BondSource *source;
  GPtrArray *found; /* of BondSurveySummary; never changed, only replaced: a thread may read it */
  GtkListBox *list;
  GtkStack *stack;
  GtkSearchEntry *search;
  GtkBox *header, *legend;
  GtkLabel *nothing, *due, *told, *folder, *progress_label;
  GtkProgressBar *progress_bar;
  GtkWidget *progress_box;
  GtkToggleButton *filters[BOND_N_START_FILTERS];
  GCancellable *cancellable;
  GFileMonitor *monitor;
  BondScanProgress *progress; /* NULL = no look under way */
  gint64 look_began;
  guint patience_ms; /* how long nothing is said; tests have less of it */
  gboolean look_again;
  guint tell_id, rest_id, busy_id;
  char *opening; /* path of the survey being opened, or NULL */
};

/** bond_surveys_install_acts: the actions of the group "surveys". */
void bond_surveys_install_acts (BondSurveysPage *self);
/** bond_surveys_tell: a sentence above the list; NULL takes it away. */
void bond_surveys_tell (BondSurveysPage *self, const char *text);
void bond_surveys_show_due (BondSurveysPage *self);
void bond_surveys_add_legend (BondSurveysPage *self, BondTickKind kind, const char *text);
/** bond_surveys_is_own: locked by a window of this program. */
gboolean bond_surveys_is_own (BondSurveysPage *self, const BondSurveySummary *summary);

G_END_DECLS
