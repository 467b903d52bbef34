/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The diagram without a pointer: arrows go from mark to mark, Home and End to the
 * first and the last of the walk, Enter takes one in hand, plus and minus zoom, Esc
 * gives the focus back.  No digit and no letter: those belong to the reading field.
 */
#include "gui/widgets/diagram-private.h"

#define KEY_STEP 1.25

static void
go_to (BondDiagram *self, const BondPlacedMark *mark)
{
  bond_diagram_set_cursor_point (self, mark->point);
  if (bond_camera_reveal (&self->camera, mark->x, mark->y, self->width, self->height, &self->insets,
                          bond_diagram_mark_size (self)))
    bond_diagram_camera_changed (self, TRUE);
}

static gboolean
step_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);
  const BondPlacedMark *from = bond_mark_field_find (self->field, self->cursor);
  const BondPlacedMark *to;
  double x, y, dx, dy;

  if (self->view == NULL)
    return FALSE;
  g_variant_get (args, "(dd)", &dx, &dy);
  bond_camera_to_view (&self->camera, self->width / 2.0, self->height / 2.0, &x, &y);
  if (from != NULL)
    to = bond_mark_field_toward (self->field, from->point, from->x, from->y, dx, dy);
  else
    to = bond_mark_field_nearest (self->field, x, y, G_MAXDOUBLE / 4.0);
  if (to != NULL) /* else the end of the row; the focus stays */
    go_to (self, to);
  return TRUE;
}

/* The field holds the marks in walking order; zoomed to a zone only its own count. */
static gboolean
end_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);
  gboolean last = g_variant_get_boolean (args);
  const BondPlacedMark *to = NULL;
  guint i, n = bond_mark_field_get_length (self->field);

  for (i = 0; i < n && (to == NULL || last); i++)
    {
      const BondPlacedMark *mark = bond_mark_field_get (self->field, i);

      if (self->zone == NULL || bond_diagram_in_zone (self, mark->point))
        to = mark;
    }
  if (to != NULL)
    go_to (self, to);
  return TRUE;
}

static gboolean
zoom_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);
  const BondPlacedMark *mark = bond_mark_field_find (self->field, self->cursor);
  double px = self->width / 2.0, py = self->height / 2.0;

  if (mark != NULL)
    bond_camera_to_pixel (&self->camera, mark->x, mark->y, &px, &py);
  if (px < 0.0 || py < 0.0 || px > self->width || py > self->height)
    px = self->width / 2.0, py = self->height / 2.0;
  bond_diagram_zoom_at (self, g_variant_get_double (args), px, py);
  return TRUE;
}

static gboolean
activate_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);

  if (self->cursor == NULL)
    return FALSE;
  bond_diagram_emit_point (self, self->cursor);
  return TRUE;
}

/* A move that is under way is given up first. */
static gboolean
escape_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  BondDiagram *self = BOND_DIAGRAM (widget);

  if (self->grip.kind == BOND_GRIP_MOVE)
    bond_diagram_let_go (self);
  else
    bond_diagram_emit_released (self);
  return TRUE;
}

/* One row a key. */
typedef struct
{
  guint keyval;
  double dx, dy;
} StepKey;

static const StepKey step_keys[] = {
  { GDK_KEY_Left, -1, 0 },    { GDK_KEY_Right, 1, 0 },    { GDK_KEY_Up, 0, -1 },    { GDK_KEY_Down, 0, 1 },
  { GDK_KEY_KP_Left, -1, 0 }, { GDK_KEY_KP_Right, 1, 0 }, { GDK_KEY_KP_Up, 0, -1 }, { GDK_KEY_KP_Down, 0, 1 },
};

static const guint zoom_in_keys[] = { GDK_KEY_plus, GDK_KEY_equal, GDK_KEY_KP_Add };
static const guint zoom_out_keys[] = { GDK_KEY_minus, GDK_KEY_KP_Subtract };
static const guint home_keys[] = { GDK_KEY_Home, GDK_KEY_KP_Home };
static const guint end_keys[] = { GDK_KEY_End, GDK_KEY_KP_End };
static const guint activate_keys[] = { GDK_KEY_Return, GDK_KEY_KP_Enter, GDK_KEY_ISO_Enter };

void
bond_diagram_add_bindings (GtkWidgetClass *widget_class)
{
  guint i;

  for (i = 0; i < G_N_ELEMENTS (step_keys); i++)
    gtk_widget_class_add_binding (widget_class, step_keys[i].keyval, 0, step_cb, "(dd)", step_keys[i].dx,
                                  step_keys[i].dy);
  for (i = 0; i < G_N_ELEMENTS (zoom_in_keys); i++)
    gtk_widget_class_add_binding (widget_class, zoom_in_keys[i], 0, zoom_cb, "d", KEY_STEP);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_plus, GDK_SHIFT_MASK, zoom_cb, "d", KEY_STEP);
  for (i = 0; i < G_N_ELEMENTS (zoom_out_keys); i++)
    gtk_widget_class_add_binding (widget_class, zoom_out_keys[i], 0, zoom_cb, "d", 1.0 / KEY_STEP);
  for (i = 0; i < G_N_ELEMENTS (home_keys); i++)
    gtk_widget_class_add_binding (widget_class, home_keys[i], 0, end_cb, "b", FALSE);
  for (i = 0; i < G_N_ELEMENTS (end_keys); i++)
    gtk_widget_class_add_binding (widget_class, end_keys[i], 0, end_cb, "b", TRUE);
  for (i = 0; i < G_N_ELEMENTS (activate_keys); i++)
    gtk_widget_class_add_binding (widget_class, activate_keys[i], 0, activate_cb, NULL);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
}
