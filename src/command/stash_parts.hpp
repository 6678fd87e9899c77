// Inside this room: the verbs of `stash`, by what they are about.
#pragma once

#include "command/stash.hpp"

namespace battwright::command {

void add_lot_verbs(StashCommands& commands);         // add, edit, colours
void add_shelf_verbs(StashCommands& commands);       // list, show, tag
void add_weight_verbs(StashCommands& commands);      // weigh, waste, give, buy, scour, correct
void add_batt_verbs(StashCommands& commands);        // card, undo-card, off-drum, batts
void add_batt_photo_verbs(StashCommands& commands);  // batt-photo, edit-photo, remove-photo, batt-photos
void add_skein_verbs(StashCommands& commands);       // skein, edit-skein, remove-skein, skeins
void add_project_verbs(StashCommands& commands);     // allocate, release, projects
void add_report_verbs(StashCommands& commands);      // report, what, calibration
void add_file_verbs(StashCommands& commands);        // export, import, backup, restore, check

}  // namespace battwright::command
