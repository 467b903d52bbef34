/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What tests need of a survey file and nobody else: another disk, and an autosave
 * that does not wait.
 */
#pragma once

#include "store/disk.h"
#include "store/survey-file.h"

G_BEGIN_DECLS

/** bond_survey_file_set_disk: from now on bytes go through @disk (copied); not while an entry is under way. */
void bond_survey_file_set_disk (BondSurveyFile *file, const BondDisk *disk);

G_END_DECLS
