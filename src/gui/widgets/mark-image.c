/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark or a class sign in a row.  It asks for the same room whatever it shows,
 * so that a list does not shake when a verdict comes, and it follows its point by
 * itself, so that a row is never rebuilt for a reading.
 */
#include "gui/widgets/mark-image.h"

#include "gui/style.h"

/* Room round the plate, as multiples of its width: the dashed frame is the widest mark, the question mark the highest.
 */
#define ROOM_WIDTH 1.6
#define ROOM_HEIGHT 1.3
#define DEFAULT_SIZE 16.0

typedef enum
{
  SHOWS_NOTHING,
  SHOWS_POINT,
  SHOWS_MARK,
  SHOWS_CLASS,
} Shows;

struct _BondMarkImage
{
  GtkWidget parent;
  Shows shows;
  BondPoint *point;
  BondRule rule;
  BondMark mark;
  BondClass klass;
  double size;
};

G_DEFINE_FINAL_TYPE (BondMarkImage, bond_mark_image, GTK_TYPE_WIDGET)

static const char *
shown_name (BondMarkImage *image)
{
  switch (image->shows)
    {
    case SHOWS_POINT:
    case SHOWS_MARK:
      return bond_mark_name (image->mark);
    case SHOWS_CLASS:
      return bond_class_name (image->klass);
    case SHOWS_NOTHING:
    default:
      return "";
    }
}

static void
refresh (BondMarkImage *image)
{
  if (image->shows == SHOWS_POINT)
    image->mark = bond_mark_for (bond_point_get_worst (image->point), image->rule);
  gtk_accessible_update_property (GTK_ACCESSIBLE (image), GTK_ACCESSIBLE_PROPERTY_LABEL, shown_name (image), -1);
  gtk_widget_queue_draw (GTK_WIDGET (image));
}

static void
leave_point (BondMarkImage *image)
{
  if (image->point != NULL)
    g_signal_handlers_disconnect_by_data (image->point, image);
  g_clear_object (&image->point);
}

static void
point_changed_cb (BondPoint *point, gpointer data)
{
  refresh (data);
}

static void
bond_mark_image_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                         int *minimum_baseline, int *natural_baseline)
{
  double room = orientation == GTK_ORIENTATION_HORIZONTAL ? ROOM_WIDTH : ROOM_HEIGHT;

  *minimum = *natural = (int)(BOND_MARK_IMAGE (widget)->size * room + 0.5);
}

static void
bond_mark_image_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  BondMarkImage *image = BOND_MARK_IMAGE (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  const BondInks *inks = bond_style_inks (widget);
  cairo_t *cr;

  if (image->shows == SHOWS_NOTHING || width <= 0 || height <= 0)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  if (image->shows == SHOWS_CLASS)
    bond_class_sign_draw (cr, image->klass, width / 2.0, height / 2.0, image->size, &inks->text);
  else
    bond_mark_draw (cr, image->mark, width / 2.0, height / 2.0, image->size, inks);
  cairo_destroy (cr);
}

static void
bond_mark_image_dispose (GObject *object)
{
  leave_point (BOND_MARK_IMAGE (object));
  G_OBJECT_CLASS (bond_mark_image_parent_class)->dispose (object);
}

static void
bond_mark_image_class_init (BondMarkImageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = bond_mark_image_dispose;
  widget_class->measure = bond_mark_image_measure;
  widget_class->snapshot = bond_mark_image_snapshot;
  gtk_widget_class_set_css_name (widget_class, "bond-mark");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
bond_mark_image_init (BondMarkImage *image)
{
  image->size = DEFAULT_SIZE;
  gtk_widget_set_can_target (GTK_WIDGET (image), FALSE);
  gtk_widget_set_valign (GTK_WIDGET (image), GTK_ALIGN_CENTER);
  bond_style_watch (GTK_WIDGET (image));
}

GtkWidget *
bond_mark_image_new (void)
{
  return g_object_new (BOND_TYPE_MARK_IMAGE, NULL);
}

void
bond_mark_image_set_point (BondMarkImage *image, BondPoint *point, BondRule rule)
{
  g_return_if_fail (BOND_IS_MARK_IMAGE (image));
  g_return_if_fail (point == NULL || BOND_IS_POINT (point));

  if (point != image->point)
    {
      leave_point (image);
      if (point != NULL)
        {
          image->point = g_object_ref (point);
          g_signal_connect (point, "changed", G_CALLBACK (point_changed_cb), image);
        }
    }
  image->rule = rule;
  image->shows = point != NULL ? SHOWS_POINT : SHOWS_NOTHING;
  refresh (image);
}

void
bond_mark_image_set_mark (BondMarkImage *image, BondMark mark)
{
  g_return_if_fail (BOND_IS_MARK_IMAGE (image));
  g_return_if_fail ((guint)mark < BOND_N_MARKS);

  leave_point (image);
  image->mark = mark;
  image->shows = SHOWS_MARK;
  refresh (image);
}

void
bond_mark_image_set_class (BondMarkImage *image, BondClass klass)
{
  g_return_if_fail (BOND_IS_MARK_IMAGE (image));
  g_return_if_fail ((guint)klass < BOND_N_CLASSES);

  leave_point (image);
  image->klass = klass;
  image->shows = SHOWS_CLASS;
  refresh (image);
}

void
bond_mark_image_clear (BondMarkImage *image)
{
  g_return_if_fail (BOND_IS_MARK_IMAGE (image));

  leave_point (image);
  image->shows = SHOWS_NOTHING;
  refresh (image);
}

void
bond_mark_image_set_size (BondMarkImage *image, double size)
{
  g_return_if_fail (BOND_IS_MARK_IMAGE (image));
  g_return_if_fail (size >= 4.0 && size <= 256.0);

  image->size = size;
  gtk_widget_queue_resize (GTK_WIDGET (image));
}
