/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Size, inode and times first; only when those differ is the content read again.
 */
#include "store/image.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct _BondImage
{
  GPtrArray *pieces; /* of GBytes */
  struct stat info;
};

static BondImage *
image_new (const char *path)
{
  BondImage *image = g_new0 (BondImage, 1);

  image->pieces = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  if (stat (path, &image->info) != 0)
    image->info.st_size = -1;
  return image;
}

BondImage *
bond_image_new (const char *path, GBytes *bytes)
{
  BondImage *image = image_new (path);

  g_ptr_array_add (image->pieces, g_bytes_ref (bytes));
  /* Between the reading and now it may have been written again: then the content is compared. */
  if (image->info.st_size != (off_t)g_bytes_get_size (bytes))
    image->info.st_size = -1;
  return image;
}

BondImage *
bond_image_new_pieces (const char *path, GPtrArray *pieces)
{
  BondImage *image = image_new (path);

  for (guint i = 0; i < pieces->len; i++)
    g_ptr_array_add (image->pieces, g_bytes_ref (g_ptr_array_index (pieces, i)));
  return image;
}

void
bond_image_free (BondImage *image)
{
  if (image == NULL)
    return;
  g_ptr_array_unref (image->pieces);
  g_free (image);
}

static gboolean
is_same_file (const struct stat *a, const struct stat *b)
{
  return a->st_size == b->st_size && a->st_ino == b->st_ino && a->st_dev == b->st_dev
         && a->st_mtim.tv_sec == b->st_mtim.tv_sec && a->st_mtim.tv_nsec == b->st_mtim.tv_nsec;
}

/* Reads exactly @length bytes and compares them. */
static gboolean
reads_as (int fd, const char *bytes, gsize length)
{
  char buffer[65536];

  while (length > 0)
    {
      gssize n = read (fd, buffer, MIN (sizeof buffer, length));

      if (n < 0 && errno == EINTR)
        continue;
      if (n <= 0 || memcmp (buffer, bytes, n) != 0)
        return FALSE;
      bytes += n;
      length -= n;
    }
  return TRUE;
}

static gboolean
has_content (BondImage *image, int fd)
{
  char more;

  for (guint i = 0; i < image->pieces->len; i++)
    {
      gsize length;
      const char *bytes = g_bytes_get_data (g_ptr_array_index (image->pieces, i), &length);

      if (!reads_as (fd, bytes, length))
        return FALSE;
    }
  return read (fd, &more, 1) == 0;
}

gboolean
bond_image_is_on_disk (BondImage *image, const char *path)
{
  struct stat info;
  gboolean same;
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);

  if (fd < 0)
    return errno == ENOENT;
  same = fstat (fd, &info) == 0 && (is_same_file (&info, &image->info) || has_content (image, fd));
  close (fd);
  if (same)
    image->info = info;
  return same;
}
