/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Making the lines takes the survey as it stands and so the main thread; it is done
 * in slices, so that the window stays alive, and the file is written in one go when
 * all of it is there: a half-written table is worse than none.
 */
#include "gui/pages/readings-page.h"
#include "gui/pages/readings-text.h"
#include <glib/gi18n-lib.h>

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

  message = ok ? g_strdup_printf (_ ("The table is in %s."), name)
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
