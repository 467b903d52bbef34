/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The few system calls that make bytes durable, behind pointers: a full disk or a
 * write-protected place is tested by handing in others.
 */
#pragma once

#include <glib.h>
#include <sys/types.h>

G_BEGIN_DECLS

/** BondDisk: the calls, with the meaning and errno of their namesakes. @data is handed to each. */
typedef struct
{
  int (*open) (const char *path, int flags, mode_t mode, gpointer data);
  gssize (*write) (int fd, const void *bytes, gsize length, gpointer data);
  int (*sync) (int fd, gpointer data); /* fdatasync */
  gpointer data;
} BondDisk;

/** bond_disk_system: the calls themselves. */
extern const BondDisk bond_disk_system;

/** bond_disk_write_all: 0, or the errno of what went wrong. */
int bond_disk_write_all (const BondDisk *disk, int fd, const void *bytes, gsize length);
/** bond_disk_sync_folder: makes names in the folder of @path durable; 0 or errno. */
int bond_disk_sync_folder (const BondDisk *disk, const char *path);
/** bond_disk_explain: what a person can do about @code: "the disk is full: free some space" … (transfer full) */
char *bond_disk_explain (int code);

/**
 * bond_disk_replace: durable replacement of @path: temporary file beside it, fsync, rename, folder fsync.
 * @pieces: of GBytes, in order
 * @backup: (nullable): the file as it was is kept under this name; replaces an older one
 *
 * Permissions of an existing file are kept.  @path must not be a symbolic link (resolve it first).
 *
 * Returns: FALSE with BOND_STORE_ERROR_WRITE: @path is as it was; or with BOND_STORE_ERROR_UNSURE: @path is the new
 * file and only its name is not known to be durable yet
 */
gboolean bond_disk_replace (const BondDisk *disk, const char *path, GPtrArray *pieces, const char *backup,
                            GError **error);
/** bond_disk_create: like bond_disk_replace() for a file that must not exist yet. */
gboolean bond_disk_create (const BondDisk *disk, const char *path, GPtrArray *pieces, GError **error);

G_END_DECLS
