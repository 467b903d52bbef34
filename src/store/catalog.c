/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The catalogue of registers: what is shipped with the program first, then what
 * the library folder adds or replaces.  A file that cannot be used is reported and
 * passed over, for one bad file must not take the others away.
 */
#include "store/catalog.h"

#include "store/register-file.h"

#include "bond-data-resource.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#define DATA_FOLDER "/io/github/bondwright/Bondwright/data/"

/* Where objects of a kind are kept, shipped and in the library folder alike, and where an object says who it is. */
typedef struct
{
  const char *folder;
  goffset id, revision, name;
} Shelf;

#define SHELF(folder, type, name)                                                                                      \
  {                                                                                                                    \
    folder, G_STRUCT_OFFSET (type, id), G_STRUCT_OFFSET (type, revision), G_STRUCT_OFFSET (type, name)                 \
  }

static const Shelf shelves[] = {
  [BOND_ADOPT_AIRFRAME] = SHELF ("airframes", BondAirframe, name),
  [BOND_ADOPT_LIMIT_SET] = SHELF ("limits", BondLimitSet, name),
  [BOND_ADOPT_INSTRUMENT] = SHELF ("instruments", BondInstrument, name),
  [BOND_ADOPT_PERSON] = SHELF ("people", BondPerson, name),
  [BOND_ADOPT_HOUSE] = SHELF ("house", BondHouse, organisation),
};

struct _BondCatalog
{
  char *folder;
  GHashTable *objects[G_N_ELEMENTS (shelves)]; /* id → object, one reference each */
};

static const char *
text_at (gconstpointer object, goffset at)
{
  return G_STRUCT_MEMBER (const char *, object, at);
}

static const char *
id_of (BondAdoptKind what, gconstpointer object)
{
  return text_at (object, shelves[what].id);
}

static int
revision_of (BondAdoptKind what, gconstpointer object)
{
  return G_STRUCT_MEMBER (int, object, shelves[what].revision);
}

/* Puts @object on its shelf, unless one of the same id and as high a revision stands there. */
static void
take (BondCatalog *catalog, BondAdoptKind what, gpointer object)
{
  gpointer old = g_hash_table_lookup (catalog->objects[what], id_of (what, object));

  if (old != NULL && revision_of (what, old) >= revision_of (what, object))
    {
      bond_register_unref (what, object);
      return;
    }
  /* Replace, not insert: the key belongs to the object. */
  g_hash_table_replace (catalog->objects[what], (char *)id_of (what, object), object);
  if (old != NULL)
    bond_register_unref (what, old);
}

/* @object read from @name in the shelf of @wanted; an airframe among the people is a slip worth naming. */
static void
take_checked (BondCatalog *catalog, BondAdoptKind wanted, BondAdoptKind what, gpointer object, const char *name,
              GPtrArray *problems)
{
  if (object == NULL)
    return;
  if (what == wanted)
    {
      take (catalog, what, object);
      return;
    }
  if (problems != NULL)
    g_ptr_array_add (problems, bond_problem_new (name, 0, _ ("This kind of file does not belong in “%s”. Move it."),
                                                 shelves[wanted].folder));
  bond_register_unref (what, object);
}

char **
bond_catalog_shipped (BondAdoptKind what)
{
  g_autofree char *folder = NULL;
  g_autoptr (GStrvBuilder) paths = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;
  guint i;

  g_return_val_if_fail ((guint)what < G_N_ELEMENTS (shelves), NULL);
  folder = g_strconcat (DATA_FOLDER, shelves[what].folder, "/", NULL);
  names = g_resource_enumerate_children (bond_data_get_resource (), folder, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  for (i = 0; names != NULL && names[i] != NULL; i++)
    {
      g_autofree char *path = g_strconcat (folder, names[i], NULL);

      g_strv_builder_add (paths, path);
    }
  return g_strv_builder_end (paths);
}

static void
load_shipped (BondCatalog *catalog, BondAdoptKind wanted, GPtrArray *problems)
{
  g_auto (GStrv) paths = bond_catalog_shipped (wanted);
  guint i;

  for (i = 0; paths[i] != NULL; i++)
    {
      g_autoptr (GBytes) bytes
          = g_resource_lookup_data (bond_data_get_resource (), paths[i], G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
      BondAdoptKind what = wanted;
      gsize length = 0;
      const char *text = g_bytes_get_data (bytes, &length);

      take_checked (catalog, wanted, what, bond_register_load_bytes (paths[i], text, length, &what, problems, NULL),
                    paths[i], problems);
    }
}

static void
load_folder (BondCatalog *catalog, BondAdoptKind wanted, GPtrArray *problems)
{
  g_autofree char *folder = g_build_filename (catalog->folder, shelves[wanted].folder, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  if (error != NULL && !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT) && problems != NULL)
    g_ptr_array_add (problems, bond_problem_new (folder, 0, _ ("The folder cannot be read: %s."), error->message));
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      BondAdoptKind what = wanted;
      gpointer object;

      if (*name == '.' || !g_str_has_suffix (name, ".xml"))
        continue;
      object = bond_register_load (path, &what, problems, NULL);
      take_checked (catalog, wanted, what, object, path, problems);
    }
}

BondCatalog *
bond_catalog_new (const char *folder, GPtrArray *problems)
{
  BondCatalog *catalog = g_new0 (BondCatalog, 1);
  gsize i;

  catalog->folder = g_strdup (folder);
  for (i = 0; i < G_N_ELEMENTS (shelves); i++)
    {
      catalog->objects[i] = g_hash_table_new (g_str_hash, g_str_equal);
      load_shipped (catalog, (BondAdoptKind)i, problems);
      if (folder != NULL)
        load_folder (catalog, (BondAdoptKind)i, problems);
    }
  return catalog;
}

void
bond_catalog_free (BondCatalog *catalog)
{
  gsize i;

  if (catalog == NULL)
    return;
  for (i = 0; i < G_N_ELEMENTS (shelves); i++)
    {
      GHashTableIter iter;
      gpointer object;

      g_hash_table_iter_init (&iter, catalog->objects[i]);
      while (g_hash_table_iter_next (&iter, NULL, &object))
        bond_register_unref ((BondAdoptKind)i, object);
      g_hash_table_unref (catalog->objects[i]);
    }
  g_free (catalog->folder);
  g_free (catalog);
}

/* By name as a person sorts it, then by id, so that the order is the same every time. */
static int
compare_cb (gconstpointer a, gconstpointer b, gpointer data)
{
  const Shelf *shelf = data;
  gconstpointer left = *(gconstpointer *)a, right = *(gconstpointer *)b;
  const char *left_name = text_at (left, shelf->name), *right_name = text_at (right, shelf->name);
  int order = g_utf8_collate (left_name != NULL ? left_name : "", right_name != NULL ? right_name : "");

  return order != 0 ? order : strcmp (text_at (left, shelf->id), text_at (right, shelf->id));
}

GPtrArray *
bond_catalog_list (BondCatalog *catalog, BondAdoptKind what)
{
  GPtrArray *list;
  GHashTableIter iter;
  gpointer object;

  g_return_val_if_fail (catalog != NULL && (guint)what < G_N_ELEMENTS (shelves), NULL);
  list = g_ptr_array_new ();
  g_hash_table_iter_init (&iter, catalog->objects[what]);
  while (g_hash_table_iter_next (&iter, NULL, &object))
    g_ptr_array_add (list, object);
  g_ptr_array_sort_with_data (list, compare_cb, (gpointer)&shelves[what]);
  return list;
}

gpointer
bond_catalog_find (BondCatalog *catalog, BondAdoptKind what, const char *id)
{
  g_return_val_if_fail (catalog != NULL && (guint)what < G_N_ELEMENTS (shelves) && id != NULL, NULL);
  return g_hash_table_lookup (catalog->objects[what], id);
}

static gboolean G_GNUC_PRINTF (3, 4) refuse (GError **error, BondStoreError code, const char *format, ...)
{
  g_autofree char *message = NULL;
  va_list args;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, BOND_STORE_ERROR, code, message);
  return FALSE;
}

/* Somebody else may have saved since the folder was read: what is on disk decides, not what is in memory. */
static gboolean
is_newer (BondCatalog *catalog, BondAdoptKind what, gpointer object, const char *path, GError **error)
{
  gpointer known = g_hash_table_lookup (catalog->objects[what], id_of (what, object)), on_disk = NULL;
  BondAdoptKind found = what;
  int revision = known != NULL ? revision_of (what, known) : 0;

  if (g_file_test (path, G_FILE_TEST_EXISTS))
    {
      on_disk = bond_register_load (path, &found, NULL, error);
      if (on_disk == NULL)
        return FALSE;
      if (found == what)
        revision = MAX (revision, revision_of (what, on_disk));
      bond_register_unref (found, on_disk);
    }
  if (revision_of (what, object) > revision)
    return TRUE;
  return refuse (
      error, BOND_STORE_ERROR_CHANGED,
      _ ("“%s” has revision %d already, and this is revision %d. Nothing was written. Look at the newer one, "
         "then save yours with a higher revision."),
      id_of (what, object), revision, revision_of (what, object));
}

gboolean
bond_catalog_save (BondCatalog *catalog, BondAdoptKind what, gpointer object, GError **error)
{
  g_autofree char *folder = NULL, *name = NULL, *path = NULL;

  g_return_val_if_fail (catalog != NULL && (guint)what < G_N_ELEMENTS (shelves) && object != NULL, FALSE);
  if (catalog->folder == NULL)
    return refuse (error, BOND_STORE_ERROR_WRITE,
                   _ ("There is no library folder to save in. Choose one, then save again."));
  if (!bond_register_id_is_sound (id_of (what, object)))
    return refuse (error, BOND_STORE_ERROR_SENSE,
                   _ ("“%s” cannot be an id: letters, digits, point, hyphen and underscore only. Choose another."),
                   id_of (what, object));
  folder = g_build_filename (catalog->folder, shelves[what].folder, NULL);
  name = g_strconcat (id_of (what, object), ".xml", NULL);
  path = g_build_filename (folder, name, NULL);
  if (g_mkdir_with_parents (folder, 0777) != 0)
    return refuse (error, BOND_STORE_ERROR_WRITE,
                   _ ("%s could not be made: %s. Nothing was written. Check your permission and save again."), folder,
                   g_strerror (errno));
  if (!is_newer (catalog, what, object, path, error) || !bond_register_save (path, what, object, error))
    return FALSE;
  take (catalog, what, bond_register_ref (what, object));
  return TRUE;
}
