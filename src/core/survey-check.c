/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "core/survey-private.h"
gboolean
bond_survey_check_entry (BondSurvey *survey, const BondEntry *entry, GError **error)
{
  return TRUE;
}
gboolean
bond_survey_undo_needs_reason (BondSurvey *survey, BondEntry *entry)
{
  return FALSE;
}
