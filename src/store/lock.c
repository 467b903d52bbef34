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
#include <stdlib.h>
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
  g_autofree char *text = NULL;

  /* The first line is told to people, the second says whose crash it may be; a lock without them is a lock all the
     same. */
  text = g_strdup_printf ("%s\n%s\n", who, g_get_host_name ());
  if (ftruncate (fd, 0) != 0 || pwrite (fd, text, strlen (text), 0) < 0)
    g_debug ("lock text not written: %s", g_strerror (errno));
}

/* The lines of a lock: who, on which computer; both NULL where it says nothing that can be read. */
static void
read_lines (int fd, char **who, char **host)
{
  char text[WHO_MAX] = "";
  gssize n = pread (fd, text, sizeof text - 1, 0);
  g_auto (GStrv) lines = n > 0 && g_utf8_validate (text, n, NULL) ? g_strsplit (text, "\n", 3) : g_new0 (char *, 1);

  *who = lines[0] != NULL && *lines[0] != '\0' ? g_strdup (lines[0]) : NULL;
  *host = lines[0] != NULL && lines[1] != NULL && *lines[1] != '\0' ? g_strdup (lines[1]) : NULL;
}

static char *
read_who (int fd)
{
  g_autofree char *host = NULL;
  char *who;

  read_lines (fd, &who, &host);
  return who != NULL ? who : g_strdup (_ ("somebody else"));
}

static gboolean
is_this_computer (const char *host)
{
  return host == NULL || strcmp (host, g_get_host_name ()) == 0;
}

static void
set_locked (GError **error, const char *survey_path, int fd)
{
  g_autofree char *who = NULL;
  g_autofree char *host = NULL;

  read_lines (fd, &who, &host);
  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_LOCKED,
               is_this_computer (host)
                   ? _ ("%s is open on this computer already: %s. Until it is closed there it can only be read.")
                   : _ ("%s is locked: %s. Until it is closed there it can only be read."),
               survey_path, who != NULL ? who : _ ("somebody else"));
}

/* No lock holds it, yet a program on another computer says that it has it: that one crashed, or its lock is not seen.
 */
static gboolean
is_left_elsewhere (int fd, const char *survey_path, GError **error)
{
  g_autofree char *who = NULL;
  g_autofree char *host = NULL;

  read_lines (fd, &who, &host);
  if (is_this_computer (host))
    return FALSE;
  g_set_error (
      error, BOND_STORE_ERROR, BOND_STORE_ERROR_LEFT,
      _ ("%s was not closed on another computer: %s. Ask whether it is still open there; if it is not, take it "
         "over."),
      survey_path, who != NULL ? who : _ ("somebody else"));
  return TRUE;
}

static void
set_no_lock (GError **error, const char *survey_path, int code)
{
  g_autofree char *why = bond_disk_explain (code);

  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
               _ ("%s cannot be opened for writing: %s, or open it read-only."), survey_path, why);
}

static BondLock *
new_lock (const char *path, int fd, const char *station)
{
  BondLock *lock = g_new0 (BondLock, 1);

  write_who (fd, station);
  lock->path = g_strdup (path);
  lock->fd = fd;
  return lock;
}

BondLock *
bond_lock_take (const char *survey_path, const char *station, gboolean take_over, GError **error)
{
  g_autofree char *path = NULL;

  g_return_val_if_fail (survey_path != NULL, NULL);

  path = lock_path (survey_path);
  for (;;)
    {
      int fd = open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
      int code = fd < 0 ? errno : flock (fd, LOCK_EX | LOCK_NB) == 0 ? 0 : errno;
      gboolean is_mine = code == 0 && is_current (fd, path);
      gboolean is_left = is_mine && !take_over && is_left_elsewhere (fd, survey_path, error);

      if (is_mine && !is_left)
        return new_lock (path, fd, station);
      if (code == EWOULDBLOCK)
        set_locked (error, survey_path, fd);
      else if (code != 0 && code != EINTR)
        set_no_lock (error, survey_path, code);
      if (fd >= 0)
        close (fd);
      if (is_left || (code != 0 && code != EINTR))
        return NULL;
    }
}

char *
bond_lock_peek (const char *survey_path)
{
  g_autofree char *target = NULL, *path = NULL;
  char *resolved, *who = NULL;
  int fd;

  g_return_val_if_fail (survey_path != NULL, NULL);

  resolved = realpath (survey_path, NULL);
  target = g_strdup (resolved != NULL ? resolved : survey_path);
  free (resolved);
  path = lock_path (target);
  fd = open (path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW);
  /* A lock file without a lock is what a killed program left behind. */
  if (fd >= 0 && flock (fd, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK)
    who = read_who (fd);
  if (fd >= 0)
    close (fd);
  return who;
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
