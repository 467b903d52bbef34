/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Making the lines takes the survey as it stands and so the main thread; it is done
 * in slices, so that the window stays alive, and the file is written in one go when
 * all of it is there: a half-written table is worse than none.
 */
#include "gui/pages/readings-page.h"
#include "gui/pages/readings-text.h"
#include <glib/gi18n-lib.h>
#include <string.h>

#define SLICE_US 8000
#define SHOW_AFTER_US G_USEC_PER_SEC

typedef struct
{
  BondSurvey *survey;
  GPtrArray *rows;
  guint at;
  GString *csv;
  GFile *file;
  GtkProgressBar *progress;
  gint64 begun;
  BondReadingsExported done;
  gpointer data;
} Export;

static void
export_free (Export *export)
{
  if (export->progress != NULL)
    gtk_widget_set_visible (GTK_WIDGET (export->progress), FALSE);
  g_clear_object (&export->progress);
  g_clear_object (&export->survey);
  g_ptr_array_unref (export->rows);
  if (export->csv != NULL)
    g_string_free (export->csv, TRUE);
  g_object_unref (export->file);
  g_free (export);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Export *export = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_file_get_parse_name (export->file);
  g_autofree char *message = NULL;
  gboolean ok = g_file_replace_contents_finish (G_FILE (source), result, NULL, &error);

  message = ok ? g_strdup_printf (
                ngettext ("%u row is in %s (CSV, UTF-8).", "%u rows are in %s (CSV, UTF-8).", export->rows->len),
                export->rows->len, name)
               : g_strdup_printf (_ ("The table could not be saved as %s (%s). The survey is untouched; choose another "
                                     "place."),
                                  name, error->message);
  export->done (message, !ok, export->data);
  export_free (export);
}

static void
write_file (Export *export)
{
  g_autoptr (GBytes) bytes = g_string_free_to_bytes (g_steal_pointer (&export->csv));

  /* Written beside and renamed. */
  g_file_replace_contents_bytes_async (export->file, bytes, NULL, FALSE, G_FILE_CREATE_NONE, NULL, written_cb, export);
}

static gboolean
slice_cb (gpointer data)
{
  Export *export = data;
  gint64 from = g_get_monotonic_time ();

  while (export->at < export->rows->len && g_get_monotonic_time () - from < SLICE_US)
    bond_readings_csv_add (export->csv, g_ptr_array_index (export->rows, export->at++));
  if (export->progress != NULL && from - export->begun > SHOW_AFTER_US)
    {
      g_autofree char *words = g_strdup_printf (_ ("%u of %u rows"), export->at, export->rows->len);

      gtk_progress_bar_set_fraction (export->progress, (double)export->at / MAX (export->rows->len, 1));
      gtk_progress_bar_set_text (export->progress, words);
      gtk_widget_set_visible (GTK_WIDGET (export->progress), TRUE);
    }
  if (export->at < export->rows->len)
    return G_SOURCE_CONTINUE;
  write_file (export);
  return G_SOURCE_REMOVE;
}

/* The name tells surveys, their journals and backups: under each of them lie readings somebody took. */
gboolean
bond_readings_export_would_destroy (GFile *file)
{
  static const char *const endings[] = { ".bondsurvey", ".journal", ".backup", ".attachment" };
  g_autofree char *name = NULL;

  g_return_val_if_fail (G_IS_FILE (file), TRUE);
  name = g_file_get_basename (file);
  for (gsize i = 0; name != NULL && i < G_N_ELEMENTS (endings); i++)
    if (g_str_has_suffix (name, endings[i]))
      return TRUE;
  return name == NULL || strstr (name, ".bondsurvey.") != NULL;
}

void
bond_readings_export (BondSurvey *survey, GPtrArray *rows, const char *filter, GFile *file, GtkProgressBar *progress,
                      BondReadingsExported done, gpointer data)
{
  Export *export;
  g_autofree char *now = NULL;

  g_return_if_fail (BOND_IS_SURVEY (survey) && rows != NULL && G_IS_FILE (file) && done != NULL);
  now = bond_source_now (bond_survey_get_source (survey));
  export = g_new0 (Export, 1);
  *export = (Export){ .survey = g_object_ref (survey),
                      .rows = g_ptr_array_ref (rows),
                      .csv = bond_readings_csv_head (survey, filter, now),
                      .file = g_object_ref (file),
                      .progress = progress != NULL ? g_object_ref (progress) : NULL,
                      .begun = g_get_monotonic_time (),
                      .done = done,
                      .data = data };
  g_idle_add (slice_cb, export);
}
