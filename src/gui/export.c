/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Making the report takes the survey as it stands, so it happens in the main
 * thread (the survey is no thread's but its own); writing the bytes, which may be a
 * slow share, happens in another.
 */
#include "gui/export.h"
#include "gui/files.h"
#include "gui/identity-strip.h"
#include "report/report.h"
#include "store/survey-file.h"
#include <glib/gi18n-lib.h>

typedef struct
{
  BondSurvey *survey;
  BondExported done;
  gpointer data;
} Export;

static void
export_free (Export *export)
{
  g_object_unref (export->survey);
  g_free (export);
}

static GBytes *
make_report (BondSurvey *survey, GError **error)
{
  g_autofree char *now = bond_source_now (bond_survey_get_source (survey));
  BondReportOptions options = { .paper = BOND_PAPER_A4, .printed = now };

  if (bond_survey_is_broken (survey))
    {
      g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_CHAIN,
                   _ ("No report was made: no figure of an altered survey is passed on. %s"),
                   bond_survey_get_read_only (survey));
      return NULL;
    }
  return bond_report_pdf (survey, &options, error);
}

gboolean
bond_export_pdf_to (BondSurvey *survey, GFile *file, GError **error)
{
  g_autoptr (GBytes) bytes = make_report (survey, error);

  g_return_val_if_fail (BOND_IS_SURVEY (survey) && G_IS_FILE (file), FALSE);
  return bytes != NULL
         && g_file_replace_contents (file, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), NULL, FALSE,
                                     G_FILE_CREATE_REPLACE_DESTINATION, NULL, NULL, error);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Export *export = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_file_get_parse_name (G_FILE (source));
  g_autofree char *message = NULL;
  gboolean ok = g_file_replace_contents_finish (G_FILE (source), result, NULL, &error);

  message
      = ok ? g_strdup_printf (_ ("The report is in %s."), name)
           : g_strdup_printf (_ ("The report could not be saved as %s (%s). The survey is untouched; choose another "
                                 "place."),
                              name, error->message);
  export->done (message, !ok, export->data);
  export_free (export);
}

static void
chosen_cb (GFile *file, gpointer data)
{
  Export *export = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = NULL;

  if (file == NULL)
    {
      export_free (export);
      return;
    }
  bytes = make_report (export->survey, &error);
  if (bytes == NULL)
    {
      export->done (error->message, TRUE, export->data);
      export_free (export);
      return;
    }
  g_file_replace_contents_bytes_async (file, bytes, NULL, FALSE, G_FILE_CREATE_REPLACE_DESTINATION, NULL, written_cb,
                                       export);
}

static char *
proposed_name (BondSurvey *survey)
{
  g_autofree char *registration = bond_identity_short (survey);
  g_autofree char *now = bond_source_now (bond_survey_get_source (survey));
  char *name = g_strdup_printf ("%s %.10s.pdf", registration, now);

  return g_strdelimit (name, "/\\", '-');
}

void
bond_export_pdf (GtkWindow *parent, BondSurvey *survey, const char *beside, BondExported done, gpointer data)
{
  Export *export = g_new0 (Export, 1);
  g_autofree char *name = proposed_name (survey);
  g_autofree char *folder = beside != NULL ? g_path_get_dirname (beside) : NULL;

  *export = (Export){ .survey = g_object_ref (survey), .done = done, .data = data };
  bond_file_save (parent, _ ("Export PDF"), folder, name, chosen_cb, export);
}
