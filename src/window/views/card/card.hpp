// The card panel: the page as it will be printed, what stands on it, and the files it goes into.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "app/card/card_preview.hpp"
#include "app/card/card_writer.hpp"
#include "window/gl/page_texture.hpp"
#include "window/kit/ui.hpp"

namespace battwright::window {

struct CardState {
    bool open = false;
    CardChoice choice;
    std::filesystem::path folder;      // for the files written
    std::filesystem::path batch_from;  // the folder whose recipes are printed
    std::optional<std::string> name;   // of the file, once typed; else made from the recipe's
    std::string ending = ".pdf";
    std::string complaint;  // about the name
    bool replace_asked = false, replace_all_asked = false;
    std::size_t side = 0;
    PreviewWish asked;                     // of the preview, last
    std::unique_ptr<CardPreview> preview;  // both made when the panel first opens
    std::unique_ptr<CardWriter> writer;
    CardPreview::State shown;
    Writing writing;
    unsigned long told = 0;  // results up to this stage of the writing are old news
    PageTexture page;
    std::shared_ptr<const PagePreview> page_of;  // what `page` was made of
    std::size_t page_side = 0;
};

// What lies on the bench.
struct CardSubject {
    std::shared_ptr<const forecast::Forecast> forecast;  // null: nothing to print yet
    unsigned long version = 0;
    forecast::Bench bench;  // for the batch
    std::string stem;       // of a file name
    bool outdated = false;  // the sheet has changed to something that has no forecast
};

// Before the panel opens: `folder` is where the recipe lives.
void prepare_card(CardState& state, const std::filesystem::path& folder, std::function<void()> wake);
void view_card(const Ui& ui, CardState& state, const CardSubject& subject);
// True when a thread has made something that is not on show yet.
bool card_has_news(const CardState& state);
// The preview is of the last wish and nothing is being written.
bool card_settled(const CardState& state);

// Tells the probe how things stand.
void report_card(const CardState& state, Probe& probe);

// Pieces of it: the files, and what stands before a field.
void view_card_files(const Ui& ui, CardState& state, const CardSubject& subject);
void card_row(const Ui& ui, std::string_view words);
inline constexpr float card_row_width = 96.0f;  // design pixels

}  // namespace battwright::window
