/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How a page of a register is told what it lists, and the parts its details are
 * made of.
 */
#pragma once

#include "gui/application.h"

G_BEGIN_DECLS

#define BOND_TYPE_REGISTER_PAGE (bond_register_page_get_type ())
G_DECLARE_FINAL_TYPE (BondRegisterPage, bond_register_page, BOND, REGISTER_PAGE, GtkBox)

/**
 * BondRegisterInfo: one register.
 * @title, @empty: untranslated; @note: (nullable) a sentence under the title
 * @first, @second: the two lines of a row, (transfer full)
 * @fill: puts the details of @object into @box
 * @act_label: (nullable): a button beside the title; @act does it
 */
typedef struct
{
  BondAdoptKind what;
  const char *title, *note, *empty;
  char *(*first) (gconstpointer object);
  char *(*second) (gconstpointer object);
  void (*fill) (BondRegisterPage *page, GtkBox *box, gconstpointer object);
  const char *act_label;
  void (*act) (BondRegisterPage *page);
} BondRegisterInfo;

GtkWidget *bond_register_page_new (BondApplication *application, const BondRegisterInfo *info);
BondApplication *bond_register_page_get_application (BondRegisterPage *page);
/** bond_register_page_refill: lists anew and chooses the object @id (nullable: as before). */
void bond_register_page_refill (BondRegisterPage *page, const char *id);

/* --- parts of details --- */

/** bond_detail_label: text at the left that wraps. @css may be NULL. */
GtkWidget *bond_detail_label (const char *text, const char *css);
void bond_detail_heading (GtkBox *box, const char *text);
void bond_detail_text (GtkBox *box, const char *text, const char *css);
/** bond_detail_pair: "Serial   EXAMPLE-MO-1"; nothing when @value is NULL. */
void bond_detail_pair (GtkBox *box, const char *label, const char *value);
/**
 * bond_detail_table: a table with @columns (translated; a leading '#' sets a column of figures at the right, a leading
 * '+' lets it take the room that is left). Returns: for bond_detail_row()
 */
GtkWidget *bond_detail_table (GtkBox *box, const char *const *columns);
/** bond_detail_row: as many @cells as columns; NULL or "" stays empty. */
void bond_detail_row (GtkWidget *table, const char *const *cells);

G_END_DECLS
