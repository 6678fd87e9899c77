// A page as files: PDF and PNG from its layout, text and Markdown from its blocks.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "card/layout.hpp"
#include "card/page.hpp"
#include "measure/replace.hpp"

namespace battwright::card {

// One side as pixels on white, as many as `dpi` asks for (the window's preview takes fewer than a print).
// Empty when there is no such side or no memory for it.
strip::Image raster(const Laid& laid, std::size_t side, double dpi = print_dpi);
// A PNG that states its resolution (pHYs chunk). Empty for an empty image.
std::string png_of(const strip::Image& image, double dpi = print_dpi);
// A PDF in the making, with text that can be searched and copied: a page for each side that is put into it.
// The file goes to `sink` as it grows, and of what has been put in nothing is held.
class Pdf {
  public:
    using Sink = std::function<bool(std::string_view)>;  // false: it takes no more
    Pdf(const std::string& title, Sink sink);
    void add(const Laid& laid);
    // Once. False when nothing was put in, memory ran out or the sink takes no more: then it is no PDF.
    bool finish();

  private:
    struct Close {
        void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    };
    std::unique_ptr<Sink> sink_;  // where cairo finds it
    std::unique_ptr<cairo_surface_t, Close> surface_;
    bool empty_ = true;
};
// Empty when there is nothing to show or no memory for it.
std::string pdf_of(std::span<const Laid> laid, const std::string& title);
std::string text_of(const Page& page);
std::string markdown_of(const Page& page);

enum class Format { png, pdf, text, markdown };
// From a file name's ending: .png, .pdf, .txt, .md. The complaint names these.
measure::Expected<Format> format_of(const std::filesystem::path& path);

// Writes the page in the format of the path's ending, whole or not at all; a PNG of a page with more sides
// goes on in NAME-2.png, NAME-3.png, ... Gives the files written, in order. `saving` says what may be
// replaced.
measure::Expected<std::vector<std::filesystem::path>> write(const Page& page, Paper paper,
                                                            const std::filesystem::path& path,
                                                            const measure::Saving& saving = {});
// The same for something already laid out; PNG and PDF only.
measure::Expected<std::vector<std::filesystem::path>> write(const Laid& laid,
                                                            const std::filesystem::path& path,
                                                            const measure::Saving& saving = {});

}  // namespace battwright::card
