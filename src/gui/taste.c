/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One object with a property a taste, bound to GSettings.  An absent schema (a
 * program run from its build folder) only means that nothing is remembered.
 */
#include "gui/taste.h"
#include "gui/settings.h"

#define KEY "bond-taste"

enum
{
  PROP_HIGH_CONTRAST = 1,
  PROP_REDUCE_MOTION,
  PROP_BIG_TARGETS,
  PROP_PANEL_LEFT,
  PROP_LETTERS,
  PROP_LOWER_SEEN_THROUGH,
  PROP_BIG_TARGET_MM, /* the last: the others are booleans */
  N_PROPS,
};

static const struct
{
  const char *name;
  gboolean usual;
} switches[PROP_BIG_TARGET_MM] = {
  [PROP_HIGH_CONTRAST] = { "high-contrast", FALSE },
  [PROP_REDUCE_MOTION] = { "reduce-motion", FALSE },
  [PROP_BIG_TARGETS] = { "big-targets", FALSE },
  [PROP_PANEL_LEFT] = { "panel-left", FALSE },
  [PROP_LETTERS] = { "letters", TRUE },
  [PROP_LOWER_SEEN_THROUGH] = { "lower-seen-through", FALSE },
};

struct _BondTaste
{
  GObject parent_instance;
  gboolean on[PROP_BIG_TARGET_MM];
  int target_mm;
  char *plain_theme; /* the theme in force before high contrast; NULL = high contrast is off */
  gboolean applied;
  GSettings *settings; /* NULL where the schema is not installed */
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (BondTaste, bond_taste, G_TYPE_OBJECT)

/* High contrast is a theme of GTK's own, with a dark sister. */
static void
apply_contrast (BondTaste *self)
{
  GtkSettings *settings = gtk_settings_get_default ();
  gboolean dark = FALSE;

  if (self->on[PROP_HIGH_CONTRAST])
    {
      if (self->plain_theme == NULL)
        g_object_get (settings, "gtk-theme-name", &self->plain_theme, NULL);
      g_object_get (settings, "gtk-application-prefer-dark-theme", &dark, NULL);
      g_object_set (settings, "gtk-theme-name", dark ? "Default-hc-dark" : "Default-hc", NULL);
    }
  else if (self->plain_theme != NULL)
    {
      g_object_set (settings, "gtk-theme-name", self->plain_theme, NULL);
      g_clear_pointer (&self->plain_theme, g_free);
    }
}

static void
apply_motion (BondTaste *self)
{
  if (self->on[PROP_REDUCE_MOTION])
    g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  else
    gtk_settings_reset_property (gtk_settings_get_default (), "gtk-enable-animations");
}

static void
bond_taste_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  BondTaste *self = BOND_TASTE (object);

  if (id == PROP_BIG_TARGET_MM)
    self->target_mm = g_value_get_int (value);
  else if (id < PROP_BIG_TARGET_MM)
    self->on[id] = g_value_get_boolean (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
  if (self->applied && id == PROP_HIGH_CONTRAST)
    apply_contrast (self);
  if (self->applied && id == PROP_REDUCE_MOTION)
    apply_motion (self);
}

static void
bond_taste_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  BondTaste *self = BOND_TASTE (object);

  if (id == PROP_BIG_TARGET_MM)
    g_value_set_int (value, self->target_mm);
  else if (id < PROP_BIG_TARGET_MM)
    g_value_set_boolean (value, self->on[id]);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
bond_taste_finalize (GObject *object)
{
  BondTaste *self = BOND_TASTE (object);

  g_clear_object (&self->settings);
  g_free (self->plain_theme);
  G_OBJECT_CLASS (bond_taste_parent_class)->finalize (object);
}

static void
bond_taste_class_init (BondTasteClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = bond_taste_set_property;
  object_class->get_property = bond_taste_get_property;
  object_class->finalize = bond_taste_finalize;
  for (int i = PROP_HIGH_CONTRAST; i < PROP_BIG_TARGET_MM; i++)
    props[i] = g_param_spec_boolean (switches[i].name, NULL, NULL, switches[i].usual, flags);
  props[PROP_BIG_TARGET_MM] = g_param_spec_int ("big-target-mm", NULL, NULL, BOND_TARGET_MM_LEAST, BOND_TARGET_MM_MOST,
                                                BOND_TARGET_MM_USUAL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
bond_taste_init (BondTaste *self)
{
  g_autoptr (GSettingsSchema) schema = NULL;

  self->target_mm = BOND_TARGET_MM_USUAL;
  for (int i = PROP_HIGH_CONTRAST; i < PROP_BIG_TARGET_MM; i++)
    self->on[i] = switches[i].usual;
  self->settings = bond_settings_open ();
  if (self->settings == NULL)
    return;
  g_object_get (self->settings, "settings-schema", &schema, NULL);
  for (int i = PROP_HIGH_CONTRAST; i < N_PROPS; i++)
    if (g_settings_schema_has_key (schema, props[i]->name)) /* one of an older version may be installed */
      g_settings_bind (self->settings, props[i]->name, self, props[i]->name, G_SETTINGS_BIND_DEFAULT);
}

BondTaste *
bond_taste_get (void)
{
  GObject *settings = G_OBJECT (gtk_settings_get_default ());
  BondTaste *taste;

  g_return_val_if_fail (settings != NULL, NULL);
  taste = g_object_get_data (settings, KEY);
  if (taste == NULL)
    {
      taste = g_object_new (BOND_TYPE_TASTE, NULL);
      g_object_set_data_full (settings, KEY, taste, g_object_unref);
    }
  return taste;
}

gboolean
bond_taste_is (BondTaste *self, const char *property)
{
  gboolean is = FALSE;

  g_return_val_if_fail (BOND_IS_TASTE (self), FALSE);
  g_object_get (self, property, &is, NULL);
  return is;
}

int
bond_taste_target_mm (BondTaste *self)
{
  g_return_val_if_fail (BOND_IS_TASTE (self), BOND_TARGET_MM_USUAL);
  return self->target_mm;
}

void
bond_taste_apply (BondTaste *self)
{
  g_return_if_fail (BOND_IS_TASTE (self));
  if (self->applied)
    return;
  self->applied = TRUE;
  apply_contrast (self);
  if (self->on[PROP_REDUCE_MOTION])
    apply_motion (self);
  g_signal_connect_object (gtk_settings_get_default (), "notify::gtk-application-prefer-dark-theme",
                           G_CALLBACK (apply_contrast), self, G_CONNECT_SWAPPED);
}
