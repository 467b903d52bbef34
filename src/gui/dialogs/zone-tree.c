/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A tick on a zone is a tick on all that is in it; a zone of which some are ticked
 * shows neither.  Branches are closed at first: most surveys take whole major zones.
 */
#include "gui/dialogs/zone-tree.h"
#include "gui/dialog.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  const BondZone *zone;
  GtkCheckButton *check;
  GPtrArray *children; /* of Node, owned */
  guint own;           /* points that stand in this very zone */
  gboolean ticked;     /* own points are in scope */
} Node;

struct _BondZoneTree
{
  GtkBox parent_instance;
  BondAirframe *airframe;
  GPtrArray *more;
  GPtrArray *roots; /* of Node */
  GtkLabel *said;
  gboolean settling;
};

G_DEFINE_FINAL_TYPE (BondZoneTree, bond_zone_tree, GTK_TYPE_BOX)

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* --- the nodes --- */

static void
node_free (gpointer data)
{
  Node *node = data;

  g_ptr_array_unref (node->children);
  g_free (node);
}

static guint
points_in (GPtrArray *points, const char *zone)
{
  guint n = 0;

  for (guint i = 0; points != NULL && i < points->len; i++)
    n += g_str_equal (((BondPointSpec *)points->pdata[i])->zone, zone);
  return n;
}

static guint
count (const Node *node, gboolean only_ticked)
{
  guint n = node->ticked || !only_ticked ? node->own : 0;

  for (guint i = 0; i < node->children->len; i++)
    n += count (node->children->pdata[i], only_ticked);
  return n;
}

static GPtrArray *
make_nodes (BondZoneTree *self, const char *parent)
{
  GPtrArray *nodes = g_ptr_array_new_with_free_func (node_free);

  for (guint i = 0; i < self->airframe->zones->len; i++)
    {
      const BondZone *zone = self->airframe->zones->pdata[i];
      Node *node;

      if (g_strcmp0 (zone->parent, parent) != 0)
        continue;
      node = g_new0 (Node, 1);
      node->zone = zone;
      node->ticked = TRUE;
      node->own = points_in (self->airframe->points, zone->number) + points_in (self->more, zone->number);
      node->children = make_nodes (self, zone->number);
      if (count (node, FALSE) > 0)
        g_ptr_array_add (nodes, node);
      else
        node_free (node);
    }
  return nodes;
}

/* --- ticks --- */

static void
tick (Node *node, gboolean ticked)
{
  node->ticked = ticked;
  for (guint i = 0; i < node->children->len; i++)
    tick (node->children->pdata[i], ticked);
}

static void
show_ticks (Node *node)
{
  guint ticked = count (node, TRUE), all = count (node, FALSE);

  gtk_check_button_set_active (node->check, ticked == all);
  gtk_check_button_set_inconsistent (node->check, ticked > 0 && ticked < all);
  for (guint i = 0; i < node->children->len; i++)
    show_ticks (node->children->pdata[i]);
}

/* Points that stand in a zone with others below it go with the whole of it: a scope names zones, not levels. */
static void
settle (Node *node)
{
  gboolean whole = TRUE;

  for (guint i = 0; i < node->children->len; i++)
    {
      Node *child = node->children->pdata[i];

      settle (child);
      whole = whole && count (child, TRUE) == count (child, FALSE);
    }
  if (node->children->len > 0)
    node->ticked = whole;
}

static void
show_all (BondZoneTree *self)
{
  guint all = 0;
  guint ticked = bond_zone_tree_count (self, &all);
  g_autofree char *words
      = g_strdup_printf (ngettext ("%u of %u point in scope", "%u of %u points in scope", all), ticked, all);

  self->settling = TRUE;
  for (guint i = 0; i < self->roots->len; i++)
    show_ticks (self->roots->pdata[i]);
  self->settling = FALSE;
  gtk_label_set_text (self->said, words);
}

static void
toggled_cb (GtkCheckButton *check, Node *node)
{
  GtkWidget *tree = gtk_widget_get_ancestor (GTK_WIDGET (check), BOND_TYPE_ZONE_TREE);
  BondZoneTree *self;

  if (tree == NULL || BOND_ZONE_TREE (tree)->settling)
    return;
  self = BOND_ZONE_TREE (tree);
  tick (node, count (node, TRUE) < count (node, FALSE));
  for (guint i = 0; i < self->roots->len; i++)
    settle (self->roots->pdata[i]);
  show_all (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* --- the rows --- */

static void add_rows (GtkBox *box, GPtrArray *nodes);

static void
opened_cb (GtkToggleButton *button, GtkWidget *inner)
{
  gboolean open = gtk_toggle_button_get_active (button);

  gtk_button_set_icon_name (GTK_BUTTON (button), open ? "pan-down-symbolic" : "pan-end-symbolic");
  gtk_widget_set_visible (inner, open);
}

static GtkWidget *
branch_button (const Node *node, GtkWidget *inner)
{
  GtkWidget *button = gtk_toggle_button_new ();
  g_autofree char *name = g_strdup_printf (_ ("Zones within %s"), node->zone->number);

  gtk_button_set_icon_name (GTK_BUTTON (button), "pan-end-symbolic");
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_tooltip_text (button, name);
  bond_name_widget (button, name);
  g_signal_connect (button, "toggled", G_CALLBACK (opened_cb), inner);
  return button;
}

static void
add_row (GtkBox *box, Node *node)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *inner = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  guint points = count (node, FALSE);
  g_autofree char *label
      = g_strdup_printf (ngettext ("%s %s (%u point)", "%s %s (%u points)", points), node->zone->number,
                         node->zone->name != NULL ? node->zone->name : "", points);
  GtkWidget *check = gtk_check_button_new_with_label (label);

  node->check = GTK_CHECK_BUTTON (check);
  gtk_check_button_set_active (node->check, TRUE);
  bond_name_widget (check, label);
  gtk_widget_set_margin_start (inner, 34);
  gtk_widget_set_visible (inner, FALSE);
  add_rows (GTK_BOX (inner), node->children);
  g_signal_connect (check, "toggled", G_CALLBACK (toggled_cb), node);
  if (node->children->len > 0)
    gtk_box_append (GTK_BOX (line), branch_button (node, inner));
  else
    gtk_widget_set_margin_start (check, 38);
  gtk_box_append (GTK_BOX (line), check);
  gtk_box_append (box, line);
  gtk_box_append (box, inner);
}

static void
add_rows (GtkBox *box, GPtrArray *nodes)
{
  for (guint i = 0; i < nodes->len; i++)
    add_row (box, nodes->pdata[i]);
}

/* --- the widget --- */

static void
clear_rows (BondZoneTree *self)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  while (child != NULL)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (child);

      if (child != GTK_WIDGET (self->said))
        gtk_box_remove (GTK_BOX (self), child);
      child = next;
    }
}

static void
bond_zone_tree_dispose (GObject *object)
{
  BondZoneTree *self = BOND_ZONE_TREE (object);

  clear_rows (self);
  g_clear_pointer (&self->roots, g_ptr_array_unref);
  g_clear_pointer (&self->more, g_ptr_array_unref);
  g_clear_pointer (&self->airframe, bond_airframe_unref);
  G_OBJECT_CLASS (bond_zone_tree_parent_class)->dispose (object);
}

static void
bond_zone_tree_class_init (BondZoneTreeClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = bond_zone_tree_dispose;
  signals[SIGNAL_CHANGED]
      = g_signal_new ("changed", BOND_TYPE_ZONE_TREE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
bond_zone_tree_init (BondZoneTree *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  self->said = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_xalign (self->said, 0);
  gtk_widget_add_css_class (GTK_WIDGET (self->said), "note");
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->said));
  self->roots = g_ptr_array_new_with_free_func (node_free);
}

GtkWidget *
bond_zone_tree_new (void)
{
  return g_object_new (BOND_TYPE_ZONE_TREE, NULL);
}

void
bond_zone_tree_set_airframe (BondZoneTree *self, BondAirframe *airframe, GPtrArray *more)
{
  g_return_if_fail (BOND_IS_ZONE_TREE (self));
  clear_rows (self);
  g_ptr_array_set_size (self->roots, 0);
  g_clear_pointer (&self->airframe, bond_airframe_unref);
  g_clear_pointer (&self->more, g_ptr_array_unref);
  if (airframe != NULL)
    {
      self->airframe = bond_airframe_ref (airframe);
      self->more = more != NULL ? g_ptr_array_ref (more) : NULL;
      g_clear_pointer (&self->roots, g_ptr_array_unref);
      self->roots = make_nodes (self, NULL);
      add_rows (GTK_BOX (self), self->roots);
    }
  show_all (self);
}

static void
collect (const Node *node, GPtrArray *zones)
{
  guint ticked = count (node, TRUE);

  if (ticked == 0)
    return;
  if (ticked == count (node, FALSE))
    g_ptr_array_add (zones, g_strdup (node->zone->number));
  else
    for (guint i = 0; i < node->children->len; i++)
      collect (node->children->pdata[i], zones);
}

GPtrArray *
bond_zone_tree_get_zones (BondZoneTree *self)
{
  GPtrArray *zones;
  guint all = 0;

  g_return_val_if_fail (BOND_IS_ZONE_TREE (self), NULL);
  if (bond_zone_tree_count (self, &all) == all)
    return NULL;
  zones = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < self->roots->len; i++)
    collect (self->roots->pdata[i], zones);
  return zones;
}

guint
bond_zone_tree_count (BondZoneTree *self, guint *all)
{
  guint ticked = 0;

  g_return_val_if_fail (BOND_IS_ZONE_TREE (self) && all != NULL, 0);
  *all = 0;
  for (guint i = 0; i < self->roots->len; i++)
    {
      ticked += count (self->roots->pdata[i], TRUE);
      *all += count (self->roots->pdata[i], FALSE);
    }
  return ticked;
}
