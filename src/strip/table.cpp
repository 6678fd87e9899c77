#include "strip/table.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "strip/table_lay.hpp"
#include "text/numbers.hpp"

namespace battwright::strip {
namespace {

using forecast::Forecast;

std::vector<const carding::Pass*> passes_shown(const forecast::Batt& batt, const TableSettings& ask) {
    std::vector<const carding::Pass*> shown;
    for (const int number : ask.passes)
        for (const carding::Pass& pass : batt.passes)
            if (pass.number == number) shown.push_back(&pass);
    if (shown.empty() && !batt.passes.empty()) shown.push_back(&batt.passes.back());
    return shown;
}

std::string label_of(const Forecast& forecast, const forecast::Batt& batt, const carding::Pass& pass) {
    std::string words =
        "after " + std::string(recipe::words_of(forecast.carder).pass) + " " + text::number(pass.number);
    for (const carding::Measures& measures : batt.measures)
        if (measures.pass == pass.number) words += ": " + std::string(carding::word_for(measures.look));
    return words;
}

// How many stand beside each other so that all are seen as large as can be.
struct Grid {
    int columns = 1, rows = 1;
    double between_mm = 0.0, head_mm = 0.0;

    TableSize whole(const TableSize& one) const {
        return {columns * (one.wide_mm + between_mm) - between_mm,
                rows * (one.tall_mm + head_mm + between_mm) - between_mm};
    }
};

double scale_in(const TableSize& size, const TableCanvas& canvas) {
    return std::min(canvas.width / std::max(1.0, size.wide_mm), canvas.height / std::max(1.0, size.tall_mm));
}

Grid grid_for_things(int count, const TableSize& one, const TableCanvas& canvas) {
    Grid best;
    double best_scale = 0.0;
    if (count <= 1) return best;
    for (int columns = 1; columns <= count; ++columns) {
        Grid grid{columns, (count + columns - 1) / columns, 0.04 * std::max(one.wide_mm, one.tall_mm), 0.0};
        grid.head_mm = canvas.label_px / std::max(1e-6, scale_in(grid.whole(one), canvas));
        const double scale = scale_in(grid.whole(one), canvas);
        if (scale <= best_scale) continue;
        best_scale = scale;
        best = grid;
    }
    return best;
}

void add_stretch(const Stretch& stretch, YarnRun& run) {
    if (stretch.from > stretch.to) return;
    run.from = std::min(run.from, stretch.from);
    run.to = std::max(run.to, stretch.to);
}

// One picture in the making.
struct Table {
    const Forecast& forecast;
    const forecast::Batt& batt;
    const TableSettings& ask;
    const TableCanvas& canvas;
    std::vector<const carding::Pass*> passes;
    std::vector<YarnScene> scenes{};  // one a pass, at the yarn's own scale
    std::vector<Laid> pieces{};
    TablePicture made{};

    YarnScene scene_at(const carding::Pass& pass, double zoom) const {
        return yarn_scene(forecast, batt, pass, ask.pull, yarn_view_of(ask.view), {0.0, zoom});
    }

    TableItem thing_of(std::size_t i) {
        if (!is_yarn(ask.view)) return batt_laid(forecast, batt, *passes[i], ask.view, canvas);
        scenes.push_back(scene_at(*passes[i], 1.0));
        if (scenes.back().ply_count == 0) return {};
        return yarn_laid(scenes.back(), ask, canvas.unit);
    }

    // Everything where it lies; the words for it.
    void lay() {
        std::string words;
        Grid grid;
        for (std::size_t i = 0; i < passes.size(); ++i) {
            TableItem thing = thing_of(i);
            if (i == 0) {
                words = thing.words;
                grid = grid_for_things(static_cast<int>(passes.size()), thing.size, canvas);
                made.size = grid.whole(thing.size);
            }
            const int column = static_cast<int>(i) % grid.columns, row = static_cast<int>(i) / grid.columns;
            const double left = column * (thing.size.wide_mm + grid.between_mm);
            const double top = row * (thing.size.tall_mm + grid.head_mm + grid.between_mm) + grid.head_mm;
            if (passes.size() > 1) made.labels.push_back({left, top, label_of(forecast, batt, *passes[i])});
            for (Laid& piece : thing.pieces) {
                piece.left_mm += left;
                piece.top_mm += top;
                pieces.push_back(std::move(piece));
            }
        }
        made.caption = words;
    }

    // Points a pixel each way, so that what is thin is seen by its mean.
    int times() const {
        const double scale = made.frame.pixels_per_mm;
        if (!scenes.empty() && scenes.front().pixels_per_mm > 0.0) {
            const double thick = scenes.front().yarn_px / scenes.front().pixels_per_mm;
            return std::clamp(static_cast<int>(std::ceil(2.5 / (scale * thick))), 1, 4);
        }
        return std::clamp(static_cast<int>(std::ceil(2.0 / scale)), 1, 3);
    }

    void give_yarn(double points_per_mm) {
        for (std::size_t i = 0; i < scenes.size(); ++i) {
            const double zoom = points_per_mm / scenes[i].pixels_per_mm;
            pieces[i].yarn = std::make_shared<const YarnScene>(scene_at(*passes[i], zoom));
        }
    }

    void set_run() {
        constexpr std::size_t points = 256;
        YarnRun& run = made.run;
        run.metres = scenes.front().length_m;
        if (scenes.size() == 1)
            run.rows = run_of(scenes.front(), points);
        else
            for (const YarnScene& scene : scenes) run.rows.push_back(mean_run_of(scene, points));
        run.from = 1.0;
        run.to = 0.0;
        for (const Laid& piece : pieces) add_stretch(stretch_shown(piece, made.frame), run);
        if (run.from > run.to) run.from = run.to = 0.0;
    }
};

std::string nothing_there(const std::vector<YarnScene>& scenes) {
    if (scenes.empty()) return "nothing is on the drum";
    return scenes.front().remark.empty() ? "no yarn to show" : "no yarn to show: " + scenes.front().remark;
}

// "after pass 2", "after each of 3 passes".
std::string when(const std::vector<const carding::Pass*>& passes, const recipe::ToolRow& words) {
    if (passes.size() == 1)
        return "after " + std::string(words.pass) + " " + text::number(passes.front()->number);
    return "after each of " + text::number(static_cast<double>(passes.size())) + " " +
           std::string(words.passes);
}

}  // namespace

ViewWords view_words(TableView view, const recipe::Carding& carding) {
    if (view == TableView::edge && recipe::makes_rolags(carding))
        return {"rolags' edge", "The rolags before they are rolled, seen from the edge."};
    const auto& row = measure::row_of(table_views, view);
    const recipe::Carder carder = recipe::carder_of(carding);
    const std::string_view surface = recipe::is_flat(carder) ? recipe::words_of(carder).surface : "";
    return {std::string(row.button), recipe::told_on(row.help, surface)};
}

TablePicture table_picture(const Forecast& forecast, const forecast::Batt& batt, const TableSettings& ask,
                           const TableCanvas& canvas) {
    Table table{forecast, batt, ask, canvas, passes_shown(batt, ask)};
    TablePicture& made = table.made;
    if (!forecast.strands.empty()) table.lay();
    made.frame = frame_of(made.size, ask, canvas.width, canvas.height);
    if (table.pieces.empty()) {
        made.remark = nothing_there(table.scenes);
        made.image = painted({}, made.frame, canvas.ground, 1, canvas.threads);
        return std::move(made);
    }
    const int times = table.times();
    if (is_yarn(ask.view)) {
        table.give_yarn(made.frame.pixels_per_mm * times);
        table.set_run();
    }
    made.image = painted(table.pieces, made.frame, canvas.ground, times, canvas.threads);
    const recipe::ToolRow& words = recipe::words_of(forecast.carder);
    made.caption += ", " + when(table.passes, words) +
                    (forecast.plan.batts > 1 && !is_yarn(ask.view)
                         ? "; one of " + text::number(static_cast<double>(forecast.plan.batts)) + " " +
                               std::string(words.loads)
                         : "");
    made.scale = "1 mm = " + text::figures(made.frame.pixels_per_mm, 3) + " px";
    return std::move(made);
}

std::vector<colour::Srgb> mean_run_of(const YarnScene& scene, std::size_t steps) {
    const auto plies = run_of(scene, steps);
    std::vector<colour::Srgb> mean;
    for (std::size_t i = 0; i < steps && !plies.empty(); ++i) {
        colour::LinearRgb sum;
        for (std::size_t ply = 0; ply < plies.size(); ++ply) {
            const colour::LinearRgb one = colour::linear(plies[ply][i]);
            const double weight = scene.ply_surfaces[ply];
            sum = {sum.r + weight * one.r, sum.g + weight * one.g, sum.b + weight * one.b};
        }
        mean.push_back(colour::encoded(sum));
    }
    return mean;
}

}  // namespace battwright::strip
