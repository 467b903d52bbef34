/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The report as other programs see it: every point and value once, fonts embedded,
 * no pictures, a clean file, the same bytes twice, nothing overlapping, and never a
 * word that would make it more than a record.
 */
#include "report-hangar.h"

#include <cairo.h>
#include <glib/gstdio.h>
#include <string.h>

#define N_POINTS 200

static char *
pdf_text (const char *path)
{
  const char *command[] = { "pdftotext", "-layout", path, "-", NULL };

  return report_hangar_run (command);
}

/* How often @word stands in @text, not as part of a longer figure or number. */
static guint
count_word (const char *text, const char *word)
{
  const char *at = text;
  guint n = 0;

  while ((at = strstr (at, word)) != NULL)
    {
      const char *end = at + strlen (word);

      n += (at == text || !g_ascii_isalnum (at[-1])) && !g_ascii_isalnum (*end) && *end != '-';
      at = end;
    }
  return n;
}

static void
test_rows (void)
{
  g_autoptr (Hangar) h = report_hangar_new (FALSE);
  g_autofree char *path = NULL, *text = NULL;
  g_autoptr (GBytes) pdf = NULL;
  g_auto (GStrv) lines = NULL;
  int i, line;

  report_hangar_fill (h, N_POINTS);
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  text = pdf_text (path);
  g_unlink (path);
  if (text == NULL)
    return;
  lines = g_strsplit (text, "\n", -1);
  for (i = 0; i < N_POINTS; i++)
    {
      g_autofree char *number = g_strdup_printf ("521-J%04d", i + 1);
      g_autofree char *figure = report_hangar_figure (i);
      int found = -1;

      g_strdelimit (figure, ".", bond_locale_mark ());
      for (line = 0; lines[line] != NULL; line++)
        if (count_word (lines[line], number) > 0 && strstr (lines[line], "Pass") != NULL)
          {
            g_assert_cmpint (found, ==, -1);
            found = line;
          }
      g_assert_cmpint (found, >=, 0);
      g_assert_cmpuint (count_word (lines[found], number), ==, 1);
      g_assert_cmpuint (count_word (lines[found], figure), ==, 1);
    }
}

static void
test_valid (void)
{
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  g_autofree char *path = NULL, *check = NULL, *fonts = NULL, *images = NULL;
  g_autoptr (GBytes) pdf = NULL;
  g_auto (GStrv) lines = NULL;
  guint i;

  report_hangar_fill (h, 96);
  report_hangar_all_states (h);
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  {
    const char *qpdf[] = { "qpdf", "--check", path, NULL };
    const char *pdffonts[] = { "pdffonts", path, NULL };
    const char *pdfimages[] = { "pdfimages", "-list", path, NULL };

    check = report_hangar_run (qpdf); /* exit status 3 for warnings: the run itself fails then */
    fonts = report_hangar_run (pdffonts);
    images = report_hangar_run (pdfimages);
  }
  g_unlink (path);
  if (check == NULL || fonts == NULL || images == NULL)
    return;
  g_assert_nonnull (strstr (check, "No syntax or stream encoding errors found"));
  g_assert_cmpuint (g_strv_length ((lines = g_strsplit (g_strchomp (images), "\n", -1))), <=,
                    2); /* head and rule only */
  g_strfreev (lines);
  lines = g_strsplit (g_strchomp (fonts), "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), >, 2);
  for (i = 2; lines[i] != NULL; i++)
    g_assert_nonnull (g_strrstr (lines[i], "yes yes yes")); /* embedded, subset, with Unicode map */
}

static void
test_same_bytes (void)
{
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  g_autoptr (GBytes) first = NULL, second = NULL;

  report_hangar_fill (h, 40);
  report_hangar_all_states (h);
  first = report_hangar_pdf (h, BOND_PAPER_A4, NULL);
  second = report_hangar_pdf (h, BOND_PAPER_A4, NULL);
  g_assert_true (g_bytes_equal (first, second));
}

static void
test_pages (gconstpointer data)
{
  BondPaper paper = (BondPaper)GPOINTER_TO_INT (data);
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  BondReportOptions options = { .paper = paper, .printed = PRINTED };
  g_autoptr (BondReport) report = NULL;
  g_autofree char *path = NULL, *info = NULL, *text = NULL, *pages = NULL, *last = NULL;
  g_autoptr (GBytes) pdf = NULL;
  int n;

  report_hangar_fill (h, 96);
  report = bond_report_new (h->survey, &options);
  n = bond_report_n_pages (report);
  pages = g_strdup_printf ("Pages:           %d\n", n);
  last = g_strdup_printf ("Page %d of %d", n, n);
  pdf = report_hangar_pdf (h, paper, &path);
  {
    const char *command[] = { "pdfinfo", path, NULL };

    info = report_hangar_run (command);
    text = pdf_text (path);
  }
  g_unlink (path);
  if (info == NULL || text == NULL)
    return;
  g_assert_nonnull (strstr (info, pages));
  g_assert_nonnull (strstr (info, paper == BOND_PAPER_A4 ? "595.276 x 841.89 pts (A4)" : "612 x 792 pts (letter)"));
  g_assert_nonnull (strstr (info, "Tagged:          yes"));
  g_assert_nonnull (strstr (info, "Electrical bonding survey ZZ-AAA"));
  g_assert_nonnull (strstr (text, last));
  g_assert_cmpuint (count_word (text, "DRAFT, not signed"), ==, (guint)n);
  g_assert_cmpuint (count_word (text, "INVENTED EXAMPLE DATA"), ==, (guint)n);
}

static void
test_words (void)
{
  g_autoptr (Hangar) h = report_hangar_new (FALSE);
  g_autofree char *path = NULL, *text = NULL, *small = NULL;
  g_autoptr (GBytes) pdf = NULL;

  report_hangar_all_states (h);
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  text = pdf_text (path);
  g_unlink (path);
  if (text == NULL)
    return;
  small = g_utf8_strdown (text, -1);
  g_assert_null (strstr (small, "airworthy"));
  g_assert_null (strstr (small, "airworthiness"));
  g_assert_null (strstr (small, "released"));
  g_assert_nonnull (strstr (text, "not a release"));
  g_assert_nonnull (strstr (text, "ISO/IEC 17025:2017"));
  g_assert_nonnull (strstr (text, "Probe placing not included"));
  g_assert_nonnull (strstr (text, "invented example data"));
}

static void
test_states (void)
{
  static const char *const words[] = {
    "To measure",        "Re-measure",       "Pass",       "Fail",           "Not confirmed",
    "Carried forward",   "Deferred",         "Not fitted", "Not applicable", "Suspect",
    "within U",          "Visual reject",    "corrosion",  "DEF-0042",       "design office",
    "panel bonded shut", "surfaces cleaned",
  };
  g_autoptr (Hangar) h = report_hangar_new (FALSE);
  g_autofree char *path = NULL, *text = NULL;
  g_autoptr (GBytes) pdf = NULL;
  guint i;

  report_hangar_all_states (h);
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  text = pdf_text (path);
  g_unlink (path);
  for (i = 0; text != NULL && i < G_N_ELEMENTS (words); i++)
    {
      g_test_message ("%s", words[i]);
      g_assert_nonnull (strstr (text, words[i]));
    }
}

/* A further limit has its line and its verdict below the one that governs, and its row in the table of limits. */
static void
test_two_limits (void)
{
  g_autoptr (Hangar) h = report_hangar_new (FALSE);
  g_autofree char *path = NULL, *text = NULL;
  g_autoptr (GBytes) pdf = NULL;
  const char *main_line, *other, *unknown;

  hangar_point_unresolved (h, "541-J01", "P1 example/J1 example/Z9");
  hangar_read (h, "541-J01", "7.00");
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  text = pdf_text (path);
  g_unlink (path);
  if (text == NULL)
    return;
  main_line = strstr (text, "As found"); /* the head of the table */
  g_assert_nonnull (main_line);
  other = strstr (main_line, "also limit P1");
  unknown = strstr (main_line, "also limit example/Z9");
  g_assert_nonnull (other);
  g_assert_nonnull (unknown);
  g_assert_true (strstr (main_line, "Fail") < other);
  g_assert_true (strstr (other, "10") < strchr (other, '\n'));
  g_assert_true (strstr (other, "Pass") < strchr (other, '\n'));
  g_assert_true (strstr (unknown, "No verdict") < strchr (unknown, '\n'));
  g_assert_null (strstr (text, "also limit J1"));
}

typedef struct
{
  double x1, y1, x2, y2;
  char *word;
} WordBox;

static void
word_box_clear (gpointer data)
{
  g_free (((WordBox *)data)->word);
}

static double
attribute (const char *line, const char *name)
{
  const char *at = strstr (line, name);

  g_assert_nonnull (at);
  return g_ascii_strtod (at + strlen (name), NULL);
}

static void
add_word (GArray *words, const char *line)
{
  WordBox box = { attribute (line, "xMin=\""), attribute (line, "yMin=\""), attribute (line, "xMax=\""),
                  attribute (line, "yMax=\""), NULL };
  const char *from = strchr (line, '>') + 1, *to = strstr (from, "</word>");

  box.word = g_strndup (from, (gsize)(to - from));
  g_array_append_val (words, box);
}

/* No two words of a page may cover each other by more than the white of their lines. */
static void
check_page (GArray *words)
{
  guint i, j;

  for (i = 0; i < words->len; i++)
    for (j = i + 1; j < words->len; j++)
      {
        const WordBox *a = &g_array_index (words, WordBox, i), *b = &g_array_index (words, WordBox, j);
        double across = MIN (a->x2, b->x2) - MAX (a->x1, b->x1), up = MIN (a->y2, b->y2) - MAX (a->y1, b->y1);
        double least = MIN (a->y2 - a->y1, b->y2 - b->y1);

        if (across > 0.8 && up > 0.45 * least)
          g_error ("“%s” and “%s” overlap at %g, %g", a->word, b->word, a->x1, a->y1);
      }
  for (i = 0; i < words->len; i++)
    {
      const WordBox *a = &g_array_index (words, WordBox, i);

      g_assert_cmpfloat (a->x1, >, 51);
      g_assert_cmpfloat (a->x2, <, 612 - 45.5);
    }
  g_array_set_size (words, 0);
}

static void
check_overlaps (const char *path)
{
  const char *command[] = { "pdftotext", "-bbox", path, "-", NULL };
  g_autofree char *text = report_hangar_run (command);
  g_auto (GStrv) lines = text != NULL ? g_strsplit (text, "\n", -1) : NULL;
  g_autoptr (GArray) words = g_array_new (FALSE, FALSE, sizeof (WordBox));
  guint i;

  g_array_set_clear_func (words, word_box_clear);
  for (i = 0; lines != NULL && lines[i] != NULL; i++)
    if (strstr (lines[i], "<word ") != NULL)
      add_word (words, lines[i]);
    else if (strstr (lines[i], "</page>") != NULL)
      check_page (words);
}

static void
test_overlaps (gconstpointer data)
{
  g_autoptr (Hangar) h = report_hangar_new (FALSE);
  g_autofree char *path = NULL;
  g_autoptr (GBytes) pdf = NULL;

  report_hangar_fill (h, 60);
  report_hangar_all_states (h);
  pdf = report_hangar_pdf (h, (BondPaper)GPOINTER_TO_INT (data), &path);
  check_overlaps (path);
  g_unlink (path);
}

/* Names as long as a form allows, and some without a single place to break. */
static void
test_long_names (void)
{
  g_autoptr (Hangar) h = report_hangar_new (FALSE);
  g_autofree char *long_words = g_strnfill (70, 'W'), *path = NULL, *many = NULL;
  g_autoptr (GBytes) pdf = NULL;
  g_autoptr (GString) sentence = g_string_new (NULL);
  int i;

  for (i = 0; i < 30; i++)
    g_string_append (sentence, "left-hand outboard ");
  many = g_strndup (sentence->str, 250);
  for (i = 0; i < 6; i++)
    {
      g_autofree char *number = g_strdup_printf ("521-J%030d", i);
      BondEntry *entry = bond_entry_new (BOND_ENTRY_POINT);

      entry->spec = hangar_spec (number, "J2");
      entry->point = g_strdup (entry->spec->id);
      g_free (entry->spec->from);
      g_free (entry->spec->to);
      entry->spec->from = g_strdup (i % 2 ? long_words : many);
      entry->spec->to = g_strdup (i % 2 ? many : long_words);
      hangar_record (h, entry);
      hangar_read (h, number, i % 2 ? "1.23" : "9.87");
    }
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  check_overlaps (path);
  g_unlink (path);
}

static void
test_outline (void)
{
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  g_autofree char *path = NULL, *json = NULL;
  g_autoptr (GBytes) pdf = NULL;

  report_hangar_fill (h, 96);
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, &path);
  {
    const char *command[] = { "qpdf", "--json", "--json-key=outlines", path, NULL };

    json = report_hangar_run (command);
  }
  g_unlink (path);
  if (json == NULL)
    return;
  g_assert_nonnull (strstr (json, "\"title\": \"Summary\""));
  g_assert_nonnull (strstr (json, "\"title\": \"Readings\""));
  g_assert_nonnull (strstr (json, "\"title\": \"Zone 521"));
  g_assert_nonnull (strstr (json, "\"title\": \"Sign-off\""));
}

static void
test_empty (void)
{
  g_autoptr (Hangar) bare = hangar_new_bare ();
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  BondReportOptions options = { .paper = BOND_PAPER_A4, .printed = PRINTED };
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) pdf = NULL;

  g_assert_null (bond_report_pdf (bare->survey, &options, &error));
  g_assert_error (error, BOND_REPORT_ERROR, BOND_REPORT_ERROR_EMPTY);
  pdf = report_hangar_pdf (h, BOND_PAPER_LETTER, NULL);
  g_assert_cmpuint (g_bytes_get_size (pdf), >, 1000);
}

static void
test_big (void)
{
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  g_autoptr (GBytes) pdf = NULL;
  double seconds;

  report_hangar_fill (h, 3000);
  g_test_timer_start ();
  pdf = report_hangar_pdf (h, BOND_PAPER_A4, NULL);
  seconds = g_test_timer_elapsed ();
  g_test_minimized_result (seconds, "3,000 points: %.2f s, %.2f MB", seconds, (double)g_bytes_get_size (pdf) / 1e6);
  g_assert_cmpuint (g_bytes_get_size (pdf), <, 3000000);
}

/* The preview is the same page: every one leaves ink on a picture. */
static void
test_preview (void)
{
  g_autoptr (Hangar) h = report_hangar_new (TRUE);
  BondReportOptions options = { .paper = BOND_PAPER_LETTER, .printed = PRINTED };
  g_autoptr (BondReport) report = NULL;
  int page;

  report_hangar_all_states (h);
  report = bond_report_new (h->survey, &options);
  for (page = 0; page < bond_report_n_pages (report); page++)
    {
      cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 612, 792);
      cairo_t *cr = cairo_create (surface);
      gsize i, size = (gsize)cairo_image_surface_get_stride (surface) * 792, ink = 0;

      cairo_set_source_rgb (cr, 1, 1, 1);
      cairo_paint (cr);
      bond_report_draw_page (report, page, cr);
      g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
      cairo_surface_flush (surface);
      for (i = 0; i < size; i += 4)
        ink += cairo_image_surface_get_data (surface)[i] < 128;
      g_assert_cmpuint (ink, >, 500);
      cairo_destroy (cr);
      cairo_surface_destroy (surface);
    }
}

static void
test_paper (void)
{
  BondPaper paper = BOND_PAPER_A4;

  g_assert_true (bond_paper_parse ("letter", &paper));
  g_assert_cmpint (paper, ==, BOND_PAPER_LETTER);
  g_assert_true (bond_paper_parse ("a4", &paper));
  g_assert_cmpint (paper, ==, BOND_PAPER_A4);
  g_assert_false (bond_paper_parse ("A4", &paper));
  g_assert_false (bond_paper_parse ("", &paper));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/rows", test_rows);
  g_test_add_func ("/report/valid", test_valid);
  g_test_add_func ("/report/same-bytes", test_same_bytes);
  g_test_add_data_func ("/report/pages/a4", GINT_TO_POINTER (BOND_PAPER_A4), test_pages);
  g_test_add_data_func ("/report/pages/letter", GINT_TO_POINTER (BOND_PAPER_LETTER), test_pages);
  g_test_add_func ("/report/words", test_words);
  g_test_add_func ("/report/states", test_states);
  g_test_add_func ("/report/two-limits", test_two_limits);
  g_test_add_data_func ("/report/overlaps/a4", GINT_TO_POINTER (BOND_PAPER_A4), test_overlaps);
  g_test_add_data_func ("/report/overlaps/letter", GINT_TO_POINTER (BOND_PAPER_LETTER), test_overlaps);
  g_test_add_func ("/report/long-names", test_long_names);
  g_test_add_func ("/report/outline", test_outline);
  g_test_add_func ("/report/empty", test_empty);
  g_test_add_func ("/report/big", test_big);
  g_test_add_func ("/report/preview", test_preview);
  g_test_add_func ("/report/paper", test_paper);
  return g_test_run ();
}
