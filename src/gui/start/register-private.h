/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How a page of a register is told what it lists; the parts its details are made of
 * are in detail.h.
 */
#pragma once

#include "gui/application.h"
#include "gui/start/detail.h"

G_BEGIN_DECLS

#define BOND_PAGE_MARGIN 28

#define BOND_TYPE_REGISTER_PAGE (bond_register_page_get_type ())
G_DECLARE_FINAL_TYPE (BondRegisterPage, bond_register_page, BOND, REGISTER_PAGE, GtkBox)

/**
 * BondRegisterInfo: one register.
 * @folder: name of its folder in the library
 * @title, @empty: untranslated; @note: (nullable) a sentence under the title
 * @first, @second: the two lines of a row, (transfer full)
 * @fill: puts the details of @object into @box
 * @act_label: (nullable): a button beside the title; @act does it
 */
typedef struct
{
  BondAdoptKind what;
  const char *folder, *title, *note, *empty;
  char *(*first) (gconstpointer object);
  char *(*second) (gconstpointer object);
  void (*fill) (BondRegisterPage *page, GtkBox *box, gconstpointer object);
  const char *act_label;
  void (*act) (BondRegisterPage *page);
} BondRegisterInfo;

/**
 * bond_register_problems_new: what of the register in @folder could not be read, with file and line; not visible when
 * all could.
 */
GtkWidget *bond_register_problems_new (BondApplication *application, const char *folder);
GtkWidget *bond_register_page_new (BondApplication *application, const BondRegisterInfo *info);
BondApplication *bond_register_page_get_application (BondRegisterPage *page);
/** bond_register_page_refill: lists anew and chooses the object @id (nullable: as before). */
void bond_register_page_refill (BondRegisterPage *page, const char *id);

G_END_DECLS
