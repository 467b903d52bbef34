/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the parts of the table of the Readings page share: order (readings-order.c),
 * columns and their room (readings-fit.c), and where it stands (readings-reveal.c).
 * Nobody else looks in here.
 */
#pragma once

#include "gui/pages/readings-table.h"

G_BEGIN_DECLS

struct _BondReadingsTable
{
  GtkWidget parent_instance;
  BondReadingsModel *model;
  GtkWidget *scroller;
  GtkColumnView *view;
  GtkSortListModel *sorted;
  GtkMultiSelection *selection;
  GtkColumnViewColumn *column[BOND_N_READINGS_COLUMNS]; /* borrowed: the view holds them */
  GSettings *settings;
  gboolean loading;

  /* order */
  BondReadingsRow *probe[2]; /* two rows no survey has */
  int probed;                /* column that tells them apart the other way round */
  int sort;                  /* column, −1 = walking order */
  GtkSortType sort_type;
  gboolean had_focus; /* before the rows moved */
  gboolean resorting; /* the order is the same, only figures are not */

  /* columns */
  gboolean wanted[BOND_N_READINGS_COLUMNS]; /* chosen by the user; shown where there is room */
  int given[BOND_N_READINGS_COLUMNS];       /* width given; another one was dragged by hand */
  int fitted_width;
  double fitted_scale;
  BondUnit unit; /* that of the heads */
  gboolean mixed;
  guint fit_source;

  /* where it stands */
  BondReadingsRow *reveal; /* to be brought into sight when there is a size */
  gboolean to_top, grab;
  GtkWidget *focus_before; /* compared with only */
  int tries, ticks;
  guint steady_source;
  BondPoint *kept_point; /* the row chosen last, so that it is chosen again when it comes back */
  char *kept_place;
};

/** BondReadingsColumnData: "bond-column" of each GtkColumnViewColumn. */
typedef struct
{
  BondReadingsTable *table;
  int index;
} BondReadingsColumnData;

/* --- readings-order.c --- */
/** bond_readings_order_compare: GCompareDataFunc of the sorter of a column; @data: BondReadingsColumnData. */
int bond_readings_order_compare (gconstpointer a, gconstpointer b, gpointer data);
/** bond_readings_order_first: a handler of the view's sorter that runs before the rows move, and has to. */
void bond_readings_order_first (BondReadingsTable *self);
/** bond_readings_order_last: a handler of it that runs after they moved: headers come and go. */
void bond_readings_order_last (BondReadingsTable *self);
/** bond_readings_order_again: figures changed: the same order, made anew. */
void bond_readings_order_again (BondReadingsTable *self);

/* --- readings-fit.c --- */
/** bond_readings_fit_load: columns as remembered. */
void bond_readings_fit_load (BondReadingsTable *self);
/** bond_readings_fit_later: columns take the room there is, outside of any allocation. */
void bond_readings_fit_later (BondReadingsTable *self);
/** bond_readings_fit: the same at once. */
void bond_readings_fit (BondReadingsTable *self);
/** bond_readings_units_changed: heads after the unit most rows have. */
void bond_readings_units_changed (BondReadingsTable *self);

/* --- readings-reveal.c --- */
/** bond_readings_reveal_begin: follows the size of the list. */
void bond_readings_reveal_begin (BondReadingsTable *self);
/**
 * bond_readings_reveal: brings @row into sight, NULL = what stands first, or with @focus what is there
 * @focus: and gives it the focus, unless that goes elsewhere before there is a layout
 */
void bond_readings_reveal (BondReadingsTable *self, BondReadingsRow *row, gboolean focus);
/** bond_readings_has_focus: the list, or a row of it. */
gboolean bond_readings_has_focus (BondReadingsTable *self);
void bond_readings_reveal_end (BondReadingsTable *self);
/** bond_readings_position: where @row stands among those shown; −1 = nowhere. */
int bond_readings_position (BondReadingsTable *self, BondReadingsRow *row);

G_END_DECLS
