/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file is either as it was or as it should be, never between, whatever happens to
 * the power.  The content is nobody's business here.
 */
#include "store/disk.h"

#include "store/xml.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static int
open_cb (const char *path, int flags, mode_t mode, gpointer data)
{
  return open (path, flags, mode);
}

static gssize
write_cb (int fd, const void *bytes, gsize length, gpointer data)
{
  return write (fd, bytes, length);
}

static int
sync_cb (int fd, gpointer data)
{
  return fdatasync (fd);
}

const BondDisk bond_disk_system = { open_cb, write_cb, sync_cb, NULL };

int
bond_disk_write_all (const BondDisk *disk, int fd, const void *bytes, gsize length)
{
  const char *at = bytes;

  while (length > 0)
    {
      gssize n = disk->write (fd, at, length, disk->data);

      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        return errno;
      if (n == 0)
        return ENOSPC;
      at += n;
      length -= n;
    }
  return 0;
}

int
bond_disk_sync_folder (const BondDisk *disk, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  int fd = disk->open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0, disk->data);
  int code;

  if (fd < 0)
    return errno;
  code = fsync (fd) == 0 ? 0 : errno;
  close (fd);
  /* Some network shares cannot sync a folder and keep their names in order without. */
  return code == EINVAL || code == ENOTSUP ? 0 : code;
}

char *
bond_disk_explain (int code)
{
  switch (code)
    {
    case ENOSPC:
    case EDQUOT:
      return g_strdup (_ ("the disk is full. Free some space"));
    case EFBIG:
      return g_strdup (_ ("the file would be larger than this place allows. Use another place"));
    case EACCES:
    case EPERM:
      return g_strdup (_ ("you may not write here. Ask for permission"));
    case EROFS:
      return g_strdup (_ ("the place is read-only. Use another place"));
    default:
      return g_strdup_printf (_ ("%s. Check the disk or the network share"), g_strerror (code));
    }
}

static void
set_error (GError **error, const char *path, int code)
{
  g_autofree char *why = bond_disk_explain (code);

  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
               _ ("%s could not be written: %s, then try again. What was there is unchanged."), path, why);
}

/* Hidden names beside the file: ".NAME.SUFFIX". */
static char *
beside (const char *path, const char *suffix)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *hidden = g_strdup_printf ("%s%s.%s", *name == '.' ? "" : ".", name, suffix);

  return g_build_filename (folder, hidden, NULL);
}

/* Owner and permissions as @path had them; owner as far as the system lets us. */
static int
keep_permissions (int fd, const char *path)
{
  struct stat info;

  if (stat (path, &info) != 0)
    return errno == ENOENT ? 0 : errno;
  if (fchown (fd, info.st_uid, info.st_gid) != 0 && fchown (fd, (uid_t)-1, info.st_gid) != 0)
    g_debug ("owner of %s not kept: %s", path, g_strerror (errno));
  return fchmod (fd, info.st_mode & 07777) == 0 ? 0 : errno;
}

static int
write_pieces (const BondDisk *disk, int fd, GPtrArray *pieces)
{
  for (guint i = 0; i < pieces->len; i++)
    {
      gsize length;
      const void *bytes = g_bytes_get_data (g_ptr_array_index (pieces, i), &length);
      int code = bond_disk_write_all (disk, fd, bytes, length);

      if (code != 0)
        return code;
    }
  return disk->sync (fd, disk->data) == 0 ? 0 : errno;
}

/* Writes @path anew with @flags; 0 or errno, and then nothing of it is left. */
static int
write_new (const BondDisk *disk, const char *path, int flags, GPtrArray *pieces, const char *like)
{
  int fd = disk->open (path, O_WRONLY | O_CREAT | O_CLOEXEC | O_NOFOLLOW | flags, 0666, disk->data);
  int code;

  if (fd < 0)
    return errno;
  code = write_pieces (disk, fd, pieces);
  if (code == 0 && like != NULL)
    code = keep_permissions (fd, like);
  if (close (fd) != 0 && code == 0)
    code = errno;
  if (code != 0)
    g_unlink (path);
  return code;
}

static int
copy_bytes (const BondDisk *disk, const char *from, const char *to)
{
  g_autofree char *bytes = NULL;
  g_autoptr (GPtrArray) pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  gsize length;

  if (!g_file_get_contents (from, &bytes, &length, NULL))
    return EIO;
  g_ptr_array_add (pieces, g_bytes_new_take (g_steal_pointer (&bytes), length));
  return write_new (disk, to, O_TRUNC, pieces, from);
}

/* A second name for the old file is enough: renaming over the first one leaves its bytes to the second. */
static int
make_backup (const BondDisk *disk, const char *path, const char *backup)
{
  g_autofree char *temporary = beside (backup, "new");
  int code = 0;

  g_unlink (temporary);
  if (link (path, temporary) != 0)
    code = errno == ENOENT ? ENOENT : copy_bytes (disk, path, temporary);
  if (code == ENOENT)
    return 0;
  if (code == 0 && g_rename (temporary, backup) != 0)
    code = errno;
  g_unlink (temporary);
  return code;
}

/* The new file has its name, and a power cut could still give the name back to the old one. */
static void
set_unsure (GError **error, const char *path, int code)
{
  g_autofree char *why = bond_disk_explain (code);

  g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_UNSURE,
               _ ("%s is written, but it is not yet certain that it would survive a power cut: %s, then save again. "
                  "The journal stays until then."),
               path, why);
}

/* What another program or person left under the temporary name is nobody's any more. */
static int
replace (const BondDisk *disk, const char *path, const char *temporary, GPtrArray *pieces, const char *backup)
{
  int code;

  g_unlink (temporary);
  code = write_new (disk, temporary, O_EXCL, pieces, path);
  if (code == 0 && backup != NULL)
    code = make_backup (disk, path, backup);
  if (code == 0 && g_rename (temporary, path) != 0)
    code = errno;
  if (code != 0)
    g_unlink (temporary);
  return code;
}

gboolean
bond_disk_replace (const BondDisk *disk, const char *path, GPtrArray *pieces, const char *backup, GError **error)
{
  g_autofree char *temporary = NULL;
  int code;

  g_return_val_if_fail (disk != NULL && path != NULL && pieces != NULL, FALSE);

  temporary = beside (path, "saving");
  code = replace (disk, path, temporary, pieces, backup);
  if (code != 0)
    {
      set_error (error, path, code);
      return FALSE;
    }
  code = bond_disk_sync_folder (disk, path);
  if (code != 0)
    set_unsure (error, path, code);
  return code == 0;
}

gboolean
bond_disk_create (const BondDisk *disk, const char *path, GPtrArray *pieces, GError **error)
{
  int code;

  g_return_val_if_fail (disk != NULL && path != NULL && pieces != NULL, FALSE);

  code = write_new (disk, path, O_EXCL, pieces, NULL);
  if (code == 0)
    {
      code = bond_disk_sync_folder (disk, path);
      if (code != 0)
        g_unlink (path);
    }
  if (code == EEXIST)
    g_set_error (error, BOND_STORE_ERROR, BOND_STORE_ERROR_WRITE,
                 _ ("%s is there already and was left alone. Choose another name."), path);
  else if (code != 0)
    set_error (error, path, code);
  return code == 0;
}
