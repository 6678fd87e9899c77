#include <cctype>

#include "card/output.hpp"
#include "measure/save.hpp"
#include "text/words.hpp"

namespace battwright::card {
namespace {

namespace fs = std::filesystem;
using Files = std::vector<fs::path>;
using measure::Complaint;
using measure::Expected;

Expected<Files> save_one(measure::FileKind kind, const fs::path& path, const std::string& bytes,
                         const measure::Saving& saving) {
    if (bytes.empty())
        return tl::make_unexpected(
            Complaint{"the card does not fit into memory", "print it on a smaller page", path.string()});
    if (auto saved = measure::save_as(kind, path, bytes, saving); !saved)
        return tl::make_unexpected(saved.error());
    return Files{path};
}

Expected<Files> save_pngs(const Laid& laid, const fs::path& path, const measure::Saving& saving) {
    Files files;
    for (std::size_t side = 0; side < laid.sides.size(); ++side) {
        fs::path file = path;
        if (side > 0)
            file.replace_filename(path.stem().string() + "-" + std::to_string(side + 1) +
                                  path.extension().string());
        auto saved = save_one(measure::FileKind::png, file, png_of(raster(laid, side)), saving);
        if (!saved) return saved;
        files.push_back(file);
    }
    return files;
}

}  // namespace

Expected<Format> format_of(const fs::path& path) {
    const std::string ending = text::lower(path.extension().string());
    if (ending == ".png") return Format::png;
    if (ending == ".pdf") return Format::pdf;
    if (ending == ".txt") return Format::text;
    if (ending == ".md") return Format::markdown;
    return tl::make_unexpected(
        Complaint{measure::quoted(path.string()) + " does not say what kind of file to write",
                  "end the file name in .pdf, .png, .txt or .md", "--output"});
}

Expected<Files> write(const Laid& laid, const fs::path& path, const measure::Saving& saving) {
    const auto format = format_of(path);
    if (!format) return tl::make_unexpected(format.error());
    if (*format == Format::png) return save_pngs(laid, path, saving);
    if (*format == Format::pdf)
        return save_one(measure::FileKind::pdf, path, pdf_of({&laid, 1}, laid.name), saving);
    return tl::make_unexpected(
        Complaint{"a laid out page is no text", "end the file name in .pdf or .png", path.string()});
}

Expected<Files> write(const Page& page, Paper paper, const fs::path& path, const measure::Saving& saving) {
    const auto format = format_of(path);
    if (!format) return tl::make_unexpected(format.error());
    if (*format == Format::text) return save_one(measure::FileKind::text, path, text_of(page), saving);
    if (*format == Format::markdown)
        return save_one(measure::FileKind::text, path, markdown_of(page), saving);
    return write(lay_out(page, paper), path, saving);
}

}  // namespace battwright::card
