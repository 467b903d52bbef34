/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * flock() on ".NAME.lock".  The file is taken away again while the lock is held, so
 * whoever got hold of a name that is gone must look again.
 */
#include "store/lock.h"

#include "store/disk.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define WHO_MAX 1000

struct _BondLock
{
  char *path;
  int fd;
};

static char *
lock_path (const char *survey_path)
{
  g_autofree char *folder = g_path_get_dirname (survey_path);
  g_autofree char *name = g_path_get_basename (survey_path);
  g_autofree char *hidden = g_strdup_printf (".%s.lock", name);

  return g_build_filename (folder, hidden, NULL);
}

/* The locked file still is the one of that name. */
static gboolean
is_current (int fd, const char *path)
{
  struct stat mine, named;

  return fstat (fd, &mine) == 0 && stat (path, &named) == 0 && mine.st_ino == named.st_ino
         && mine.st_dev == named.st_dev;
}

/* "T. Tester (tester)"; one of them where both are the same. */
static char *
name_and_user (void)
{
  const char *name = g_get_real_name ();
  const char *user = g_get_user_name ();

  return g_ascii_strcasecmp (name, user) == 0 ? g_strdup (user) : g_strdup_printf ("%s (%s)", name, user);
}

static void
write_who (int fd, const char *station)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *since = g_date_time_format (now, "%Y-%m-%d %H:%M");
  g_autofree char *name = name_and_user ();
  gboolean named = station != NULL && *station != '\0' && strcmp (station, g_get_host_name ()) != 0;
  g_autofree char *who
      = named ? g_strdup_printf (_ ("%s on %s, station “%s”, since %s"), name, g_get_host_name (), station, since)
              : g_strdup_printf (_ ("%s on %s, since %s"), name, g_get_host_name (), since);

  /* Only told to people: a lock without it is a lock all the same. */
  if (ftruncate (fd, 0) != 0 || pwrite (fd, who, strlen (who), 0) < 0)
    g_debug ("lock text not written: %s", g_strerror (errno));
}

static void
set_locked (GError **error, const char *survey_path, int fd)
{
  char who[WHO_MAX] = "";
  gssize n = pread (fd, who, sizeof who - 1, 0);

  if (n <= 0 || !g_utf8_validate (who, n, NULL))
    g_strlcpy (who, _ ("somebody else"), sizeof who);
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LOCKED,
               _ ("%s is open for writing elsewhere: %s. Until it is closed there it can only be read."), survey_path,
               who);
}

static void
set_no_lock (GError **error, const char *survey_path, int code)
{
  g_autofree char *why = bond_disk_explain (code);

  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
               _ ("%s cannot be opened for writing: %s, or open it read-only."), survey_path, why);
}

BondLock *
bond_lock_take (const char *survey_path, const char *station, GError **error)
{
  g_autofree char *path = NULL;

  g_return_val_if_fail (survey_path != NULL, NULL);

  path = lock_path (survey_path);
  for (;;)
    {
      int fd = open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
      int code = fd < 0 ? errno : flock (fd, LOCK_EX | LOCK_NB) == 0 ? 0 : errno;

      if (code == 0 && is_current (fd, path))
        {
          BondLock *lock = g_new0 (BondLock, 1);

          write_who (fd, station);
          lock->path = g_steal_pointer (&path);
          lock->fd = fd;
          return lock;
        }
      if (code == EWOULDBLOCK)
        set_locked (error, survey_path, fd);
      else if (code != 0 && code != EINTR)
        set_no_lock (error, survey_path, code);
      if (fd >= 0)
        close (fd);
      if (code != 0 && code != EINTR)
        return NULL;
    }
}

void
bond_lock_drop (BondLock *lock)
{
  if (lock == NULL)
    return;
  g_unlink (lock->path);
  close (lock->fd);
  g_free (lock->path);
  g_free (lock);
}
