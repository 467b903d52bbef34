/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Called only after the entry is durable and applied, so that a line here is a
 * promise the file has to keep.  A trace that cannot be written is no reason to
 * disturb anybody.
 */
#include "gui/trace.h"
#include <fcntl.h>
#include <unistd.h>

void
bond_trace_entry (const BondEntry *entry)
{
  const char *path = g_getenv ("BONDWRIGHT_TRACE");
  g_autofree char *line = NULL;
  int fd;

  if (path == NULL || entry == NULL)
    return;
  fd = open (path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (fd < 0)
    return;
  line = g_strdup_printf ("%s\n", entry->id);
  if (write (fd, line, strlen (line)) < 0)
    g_debug ("trace %s: not written", path);
  close (fd);
}
