#include "card/tag.hpp"

#include "card/care.hpp"
#include "card/strip_picture.hpp"
#include "recipe/file_name.hpp"

namespace battwright::card {
namespace {

std::string thickness_words(const recipe::Thickness& thickness) {
    if (thickness.in == recipe::ThicknessIn::class_name) {
        const yarn::ThicknessClass* named = yarn::class_named(thickness.class_name);
        return named != nullptr ? yarn::both_names(*named, thickness.class_name) : thickness.class_name;
    }
    const std::string value = measure::write_number(thickness.value);
    return value + (thickness.in == recipe::ThicknessIn::wpi ? " wraps per inch" : " tex");
}

std::string plies_words(int plies) {
    return plies == 1 ? "single" : std::to_string(plies) + "-ply";
}

Table facts_of(const forecast::Forecast& f, const TagOptions& options) {
    Table table{{{""}, {"", true}}, {}};
    const auto add = [&](const std::string& what, const std::string& value) {
        if (!value.empty()) table.rows.push_back({{what, value}});
    };
    const double foretold = options.skein ? skein_grams(f) : f.total_grams;
    add("weight", measure::print_mass(options.grams > 0.0 ? options.grams : foretold, options.units.mass));
    add("length", options.length);
    if (options.skein) {
        add("thickness", thickness_words(f.recipe.spinning.thickness));
        add("plies", plies_words(f.recipe.spinning.plies));
    }
    add("lot", options.lot);
    add("date", options.date);
    return table;
}

std::string product_words(Product product) {
    return "Content of the " + std::string(word_for(product));
}

void add_content(Page& page, const forecast::Forecast& f, const TagOptions& options) {
    const Label content = label_of(f, options);
    page.blocks.emplace_back(Paragraph{product_words(options.skein ? Product::yarn : Product::batt), true});
    if (content.text.empty() && !content.refused.empty())
        page.blocks.emplace_back(Paragraph{"No content label: " + content.refused.front().what + "."});
    else
        page.blocks.emplace_back(Heading{content.text});
    if (!options.label.origin.empty()) page.blocks.emplace_back(Paragraph{options.label.origin});
    if (options.draft) page.blocks.emplace_back(Paragraph{std::string(label_draft), true});
}

}  // namespace

Label label_of(const forecast::Forecast& f, const TagOptions& options) {
    const Product product = options.skein ? Product::yarn : Product::batt;
    return label(shares_of(f, options.market, product), options.market, options.label);
}

Page tag(const forecast::Forecast& f, const TagOptions& options) {
    Page page;
    page.name = recipe::title_of(f.recipe);
    page.blocks.emplace_back(HoleMark{});
    page.blocks.emplace_back(Heading{recipe::title_of(f.recipe), true});
    if (!options.maker.empty()) page.blocks.emplace_back(Paragraph{options.maker});
    if (options.picture) page.blocks.emplace_back(strip_picture(f));
    add_content(page, f, options);
    page.blocks.emplace_back(facts_of(f, options));
    if (options.care) {
        std::string text;
        for (const std::string& line : care_of(f)) text += (text.empty() ? "" : " ") + line;
        page.blocks.emplace_back(Paragraph{text, true});
        page.blocks.emplace_back(
            Paragraph{"Keep loose fibre and string from pets and small children.", true});
    }
    return page;
}

Page label_page(const std::string& name, const Label& label, Product product, bool draft) {
    Page page;
    page.name = name;
    page.blocks.emplace_back(Heading{name, true});
    page.blocks.emplace_back(
        Paragraph{product_words(product) + " for the " + std::string(word_for(label.market)), true});
    page.blocks.emplace_back(Heading{label.text.empty() ? "No label." : label.text});
    if (draft) page.blocks.emplace_back(Paragraph{std::string(label_draft), true});
    for (const measure::Complaint& one : label.refused)
        page.blocks.emplace_back(Paragraph{"Refused: " + one.what + "; " + one.mend + ".", true});
    const std::string act = label.market == Market::eu_uk ? "Regulation (EU) No 1007/2011, " : "";
    for (const std::string& rule : label.rules)
        page.blocks.emplace_back(Paragraph{"By " + act + rule + ".", true});
    for (const std::string& note : label.notes)
        page.blocks.emplace_back(Paragraph{"Note: " + note + ".", true});
    return page;
}

}  // namespace battwright::card
