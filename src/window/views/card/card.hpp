// The card panel: the page as it will be printed, what stands on it, and the files it goes into.
#pragma once

#include <memory>
#include <string_view>

#include "app/card/card_session.hpp"
#include "app/derived.hpp"
#include "window/gl/texture.hpp"
#include "window/kit/ui.hpp"
#include "window/kit/widgets.hpp"

namespace battwright::window {

struct CardState {
    CardDraft draft;  // as it is being changed; the session's own at the beginning of a frame
    std::size_t side = 0;
    Texture page;
    struct PageInputs {
        std::shared_ptr<const PagePreview> made;
        std::size_t side = 0;
        bool operator==(const PageInputs&) const = default;
    };
    Derived<PageInputs, bool> page_of;  // what `page` shows
};

// Before it is drawn: the side on show as a texture.
void follow_card(CardState& state, const CardSession& session);
void view_card(const Ui& ui, const PanelHead& head, CardState& state, const CardSubject& subject);
void report_card(const CardSession& session, Probe& probe);

// Pieces of it: the files, and what stands before a field.
void view_card_files(const Ui& ui, CardState& state, const CardSubject& subject);
void card_row(const Ui& ui, std::string_view words);
inline constexpr float card_row_width = 96.0f;  // design pixels

}  // namespace battwright::window
