/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The way through the diagram: where it looks (the path of zones), which points come next (digits at marks, at the
 * window's edge, on the buttons of the views) and the line between them.
 */
#include "gui/pages/view-digits.h"
#include "gui/pages/zone-crumbs.h"
#include "gui/widgets/diagram-private.h"
#include "plane.h"
#include "reach.h"
#include "screen.h"

#include <math.h>

#define WIDTH 900
#define HEIGHT 700

typedef struct
{
  BondSurvey *survey;
  BondDiagram *diagram;
  GtkWidget *crumbs, *buttons, *details;
  GtkWindow *window;
} Way;

static const char *const views[][2]
    = { { "plan-upper", "Upper" }, { "plan-lower", "Lower" }, { "side-left", "Left" }, { "side-right", "Right" } };

static void
set_up (Way *way, gconstpointer data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  way->survey = plane_survey_new ("generic-jet-transport");
  way->diagram = BOND_DIAGRAM (bond_diagram_new ());
  bond_diagram_set_survey (way->diagram, way->survey);
  bond_diagram_set_inks_dark (way->diagram, FALSE);
  gtk_widget_set_vexpand (GTK_WIDGET (way->diagram), TRUE);
  way->crumbs = bond_zone_crumbs_new (way->diagram, way->survey);
  way->buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (views); i++)
    {
      GtkWidget *button = gtk_button_new ();

      gtk_button_set_child (GTK_BUTTON (button), gtk_label_new (views[i][1]));
      bond_view_digits_prepare (button, views[i][0], views[i][1]);
      gtk_box_append (GTK_BOX (way->buttons), button);
    }
  way->details = gtk_menu_button_new ();
  gtk_box_append (GTK_BOX (box), way->details);
  gtk_box_append (GTK_BOX (box), way->crumbs);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (way->diagram));
  gtk_box_append (GTK_BOX (box), way->buttons);
  way->window = screen_show (box, WIDTH, HEIGHT);
}

static void
tear_down (Way *way, gconstpointer data)
{
  gtk_window_destroy (way->window);
  g_object_unref (way->survey);
}

/* --- the path of zones -------------------------------------------------------------------------------------------- */

/* The texts of the buttons, "|" between them. */
static char *
path (Way *way)
{
  GString *text = g_string_new (NULL);
  GtkWidget *box = gtk_widget_get_first_child (way->crumbs);

  for (GtkWidget *child = gtk_widget_get_first_child (box); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_BUTTON (child))
      g_string_append_printf (text, "%s%s", text->len > 0 ? "|" : "",
                              gtk_label_get_text (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (child)))));
  return g_string_free (text, FALSE);
}

static void
click_crumb (Way *way, guint nth)
{
  GtkWidget *child = gtk_widget_get_first_child (gtk_widget_get_first_child (way->crumbs));

  for (; child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_BUTTON (child) && nth-- == 0)
      break;
  g_signal_emit_by_name (child, "clicked");
}

static void
test_the_path_of_zones (Way *way, gconstpointer data)
{
  g_autofree char *whole = path (way);
  g_autofree char *deep = NULL;
  g_autofree char *up = NULL;

  g_assert_cmpstr (whole, ==, "");
  g_assert_false (gtk_widget_get_visible (way->crumbs));
  g_assert_true (bond_diagram_zoom_to_zone (way->diagram, "521"));
  deep = path (way);
  g_assert_cmpstr (deep, ==, "500 Left wing|520|521 Left wing box, inner tank");
  g_assert_true (gtk_widget_get_visible (way->crumbs));

  click_crumb (way, 0);
  g_assert_cmpstr (bond_diagram_get_zone (way->diagram), ==, "500");
  up = path (way);
  g_assert_cmpstr (up, ==, "500 Left wing");
  bond_diagram_fit (way->diagram);
  g_assert_false (gtk_widget_get_visible (way->crumbs));
}

/* --- next points in other views ----------------------------------------------------------------------------------- */

/* The first point drawn in @view and in no other main view, found in the template. */
static BondPoint *
only_in (Way *way, const char *view)
{
  GPtrArray *points = bond_survey_get_airframe (way->survey)->points;

  for (guint i = 0; i < points->len; i++)
    {
      const BondPointSpec *spec = g_ptr_array_index (points, i);
      gboolean here = FALSE, elsewhere = FALSE;

      for (guint p = 0; p < spec->placements->len; p++)
        {
          const BondPlacement *placement = g_ptr_array_index (spec->placements, p);
          gboolean same = g_strcmp0 (placement->view, view) == 0;

          here |= same && placement->home;
          elsewhere |= !same;
        }
      if (here && !elsewhere)
        return bond_survey_find_point (way->survey, spec->id);
    }
  g_assert_not_reached ();
}

static char *
on_buttons (Way *way)
{
  GString *text = g_string_new (NULL);

  for (GtkWidget *child = gtk_widget_get_first_child (way->buttons); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    g_string_append_printf (text, "%s%s", text->len > 0 ? "|" : "",
                            gtk_label_get_text (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (child)))));
  return g_string_free (text, FALSE);
}

static void
test_digits_on_views (Way *way, gconstpointer data)
{
  BondPoint *next[] = { only_in (way, "plan-upper"), only_in (way, "plan-lower"), only_in (way, "side-left"),
                        only_in (way, "side-left") };
  g_autofree char *upper = NULL;
  g_autofree char *lower = NULL;
  g_autofree char *aloud = NULL;
  GtkWidget *second;

  bond_view_digits_show (way->buttons, way->diagram, next, G_N_ELEMENTS (next));
  upper = on_buttons (way);
  g_assert_cmpstr (upper, ==, "Upper|Lower 2|Left 3|Right"); /* of two points in one view the nearer one */
  second = gtk_widget_get_next_sibling (gtk_widget_get_first_child (way->buttons));
  aloud = reach_name (second);
  g_assert_cmpstr (aloud, ==, "Lower, point 2 of the walk is there");

  bond_diagram_set_view (way->diagram, "plan-lower");
  bond_view_digits_show (way->buttons, way->diagram, next, G_N_ELEMENTS (next));
  lower = on_buttons (way);
  g_assert_cmpstr (lower, ==, "Upper 1|Lower|Left 3|Right");
}

/* What is best seen close up has its digit where the close-up views are chosen. */
static void
test_digit_on_details (Way *way, gconstpointer data)
{
  BondPoint *next[] = { only_in (way, "plan-lower"), only_in (way, "nacelle-left") };
  const BondAirframe *airframe = bond_survey_get_airframe (way->survey);
  GtkMenuButton *button = GTK_MENU_BUTTON (way->details);
  g_autofree char *aloud = NULL;

  bond_view_digits_show_on_menu (button, "Details", way->diagram, airframe, next, 2);
  g_assert_cmpstr (gtk_menu_button_get_label (button), ==, "Details 2");
  aloud = reach_name (way->details);
  g_assert_cmpstr (aloud, ==, "Details, point 2 of the walk is there");
  bond_view_digits_show_on_menu (button, "Details", way->diagram, airframe, next, 1);
  g_assert_cmpstr (gtk_menu_button_get_label (button), ==, "Details");
}

/* --- next points in this view ------------------------------------------------------------------------------------- */

static const BondPlacedMark *
mark_of (Way *way, const char *number)
{
  const BondPlacedMark *mark
      = bond_mark_field_find (way->diagram->field, bond_survey_find_number (way->survey, number));

  g_assert_nonnull (mark);
  return mark;
}

static void
set_walk (Way *way, const char *current, const char *const *numbers)
{
  BondPoint *next[BOND_DIAGRAM_MAX_WALK];
  guint n = 0;

  for (; numbers[n] != NULL; n++)
    next[n] = mark_of (way, numbers[n])->point;
  bond_diagram_set_current (way->diagram, mark_of (way, current)->point);
  bond_diagram_set_walk (way->diagram, next, n);
}

static const char *const wing[] = { "521-J01", "551-J01", "561-J01", "562-J01", NULL };

static gboolean
apart (const BondBox *a, const BondBox *b)
{
  return a->x + a->width <= b->x + 0.5 || b->x + b->width <= a->x + 0.5 || a->y + a->height * 0.7 <= b->y + 0.5
         || b->y + b->height * 0.7 <= a->y + 0.5;
}

/* Its figure lies on no mark. */
static void
assert_off_marks (BondDiagram *diagram, const BondBox *box)
{
  double half = bond_diagram_mark_size (diagram) * 0.5;

  for (guint i = 0; i < diagram->stands->len; i++)
    {
      const BondStand *stand = &g_array_index (diagram->stands, BondStand, i);
      BondBox plate = { stand->px - half, stand->py - half * 0.6, 2.0 * half, half * 1.2 };

      if (stand->place < 0)
        g_assert_true (apart (box, &plate));
    }
}

/* Each digit stands beside its mark, none on another digit or mark, all in ink. */
static void
test_digits_at_marks (Way *way, gconstpointer data)
{
  const BondInks *inks = bond_inks_light ();
  cairo_surface_t *picture;
  BondBox box[4];

  set_walk (way, "511-J01", wing);
  bond_diagram_zoom_to_zone (way->diagram, "500");
  picture = screen_picture (GTK_WIDGET (way->diagram), &inks->paper);
  for (guint i = 0; i < 4; i++)
    {
      const BondStand *stand = bond_diagram_find_stand (way->diagram, mark_of (way, wing[i])->point, -1);

      g_assert_true (bond_diagram_digit_box (way->diagram, way->diagram->layer_labeller, i + 1, &box[i]));
      if (stand != NULL)
        g_assert_cmpfloat (hypot (box[i].x - stand->px, box[i].y + box[i].height / 2.0 - stand->py), <,
                           4.0 * bond_diagram_mark_size (way->diagram));
      g_assert_cmpuint (screen_count_ink (picture, (int)box[i].x, (int)box[i].y, (int)box[i].width + 1,
                                          (int)box[i].height + 1, &inks->text),
                        >, 3);
      for (guint j = 0; j < i; j++)
        g_assert_true (apart (&box[i], &box[j]));
      assert_off_marks (way->diagram, &box[i]);
    }
  cairo_surface_destroy (picture);
}

/* What lies outside the window has its digit at the edge, whole. */
static void
test_digits_at_the_edge (Way *way, gconstpointer data)
{
  static const char *const far[] = { "111-F01", "631-J01", NULL };
  int width = gtk_widget_get_width (GTK_WIDGET (way->diagram));
  int height = gtk_widget_get_height (GTK_WIDGET (way->diagram));
  BondBox box;

  set_walk (way, "521-J01", far);
  bond_diagram_zoom_to_zone (way->diagram, "521");
  screen_spin (50);
  for (guint i = 1; i <= 2; i++)
    {
      g_assert_true (bond_diagram_digit_box (way->diagram, way->diagram->layer_labeller, i, &box));
      g_assert_cmpfloat (box.x, >=, 0.0);
      g_assert_cmpfloat (box.y, >=, 0.0);
      g_assert_cmpfloat (box.x + box.width, <=, width);
      g_assert_cmpfloat (box.y + box.height, <=, height);
    }
}

/* Another view: no digit here, for the button of that view has it. */
static void
test_no_digit_of_another_view (Way *way, gconstpointer data)
{
  BondPoint *next[] = { only_in (way, "plan-lower") };
  BondBox box;

  bond_diagram_set_current (way->diagram, mark_of (way, "521-J01")->point);
  bond_diagram_set_walk (way->diagram, next, 1);
  g_assert_false (bond_diagram_digit_box (way->diagram, way->diagram->layer_labeller, 1, &box));
}

/* Pixels of the rectangle that are not the same in both pictures. */
static guint
count_changed (cairo_surface_t *before, cairo_surface_t *after, int x, int y, int width, int height)
{
  int stride = cairo_image_surface_get_stride (before);
  guint count = 0;

  g_assert_cmpint (stride, ==, cairo_image_surface_get_stride (after));
  for (int j = y; j < y + height; j++)
    for (int i = x; i < x + width; i++)
      count += memcmp (cairo_image_surface_get_data (before) + j * stride + i * 4,
                       cairo_image_surface_get_data (after) + j * stride + i * 4, 4)
               != 0;
  return count;
}

/* From wing to wing there is no line across the fuselage, only an arrow that sets out. */
static void
test_no_line_across_the_fuselage (Way *way, gconstpointer data)
{
  static const char *const over[] = { "631-J01", NULL };
  const BondInks *inks = bond_inks_light ();
  cairo_surface_t *before, *after;
  double ax, ay, bx, by;

  bond_diagram_set_current (way->diagram, mark_of (way, "531-J01")->point);
  bond_diagram_set_walk (way->diagram, NULL, 0);
  before = screen_picture (GTK_WIDGET (way->diagram), &inks->paper);
  set_walk (way, "531-J01", over);
  after = screen_picture (GTK_WIDGET (way->diagram), &inks->paper);
  bond_diagram_to_widget (way->diagram, mark_of (way, "531-J01")->x, mark_of (way, "531-J01")->y, &ax, &ay);
  bond_diagram_to_widget (way->diagram, mark_of (way, "631-J01")->x, mark_of (way, "631-J01")->y, &bx, &by);
  g_assert_cmpfloat (hypot (bx - ax, by - ay), >, 300.0);
  for (int at = 3; at <= 7; at++) /* tenths of the way */
    {
      int x = (int)(ax + (bx - ax) * at / 10.0) - 8, y = (int)(ay + (by - ay) * at / 10.0) - 8;

      g_assert_cmpuint (count_changed (before, after, x, y, 16, 16), ==, 0);
    }
  /* but it sets out, and the digit stands over there */
  g_assert_cmpuint (count_changed (before, after, (int)ax, (int)MIN (ay, by) - 30, 60, (int)fabs (by - ay) + 60), >, 5);
  g_assert_cmpuint (count_changed (before, after, (int)bx - 30, (int)by - 30, 60, 60), >, 5);
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
}

#define ADD(path, test) g_test_add (path, Way, NULL, set_up, test, tear_down)

int
main (int argc, char *argv[])
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  g_setenv ("GSK_RENDERER", "cairo", TRUE);
  g_unsetenv ("DBUS_SESSION_BUS_ADDRESS");
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  ADD ("/diagram-walk/path", test_the_path_of_zones);
  ADD ("/diagram-walk/views", test_digits_on_views);
  ADD ("/diagram-walk/details", test_digit_on_details);
  ADD ("/diagram-walk/marks", test_digits_at_marks);
  ADD ("/diagram-walk/edge", test_digits_at_the_edge);
  ADD ("/diagram-walk/other-view", test_no_digit_of_another_view);
  ADD ("/diagram-walk/fuselage", test_no_line_across_the_fuselage);
  return g_test_run ();
}
