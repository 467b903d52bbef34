/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reads a survey in a thread and hands it over in the main loop.  Until then nobody
 * else knows of it, so nothing has to be guarded.
 */
#include "gui/start/opening.h"
#include "library/beside.h"

typedef struct
{
  char *path, *station;
  BondOpenMode mode;
  GPtrArray *problems;
  BondOpened opened;
  gpointer data;
} Opening;

static void
opening_free (gpointer data)
{
  Opening *opening = data;

  g_free (opening->path);
  g_free (opening->station);
  g_ptr_array_unref (opening->problems);
  g_free (opening);
}

static void
open_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Opening *opening = data;
  g_autoptr (BondSource) clock = bond_source_new_system ();
  GError *error = NULL;
  BondSurveyFile *file
      = bond_survey_file_open (opening->path, opening->mode, clock, opening->station, opening->problems, &error);

  if (file != NULL)
    {
      g_autoptr (GPtrArray) copies = bond_copies_beside (opening->path);

      g_ptr_array_extend_and_steal (opening->problems, g_steal_pointer (&copies));
      g_task_return_pointer (task, file, g_object_unref);
    }
  else
    g_task_return_error (task, error);
}

static void
opened_cb (GObject *object, GAsyncResult *result, gpointer data)
{
  Opening *opening = g_task_get_task_data (G_TASK (result));
  GCancellable *cancellable = g_task_get_cancellable (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (BondSurveyFile) file = g_task_propagate_pointer (G_TASK (result), &error);

  if (g_cancellable_is_cancelled (cancellable))
    return;
  opening->opened (file, opening->problems, error, opening->data);
}

void
bond_open_in_thread (const char *path, BondOpenMode mode, const char *station, GCancellable *cancellable,
                     BondOpened opened, gpointer data)
{
  g_autoptr (GTask) task = NULL;
  Opening *opening;

  g_return_if_fail (path != NULL && opened != NULL && G_IS_CANCELLABLE (cancellable));
  opening = g_new0 (Opening, 1);
  opening->path = g_strdup (path);
  opening->station = g_strdup (station);
  opening->mode = mode;
  opening->problems = g_ptr_array_new_with_free_func ((GDestroyNotify)bond_problem_free);
  opening->opened = opened;
  opening->data = data;
  task = g_task_new (NULL, cancellable, opened_cb, NULL);
  g_task_set_task_data (task, opening, opening_free);
  g_task_run_in_thread (task, open_thread);
}
