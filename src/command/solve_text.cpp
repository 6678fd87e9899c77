#include <algorithm>

#include "colour/large.hpp"
#include "command/layout.hpp"
#include "command/solve_report.hpp"

namespace battwright::command {
namespace {

// One scale for an answer. While all is near: CIEDE2000 to a tenth. Further off that means little, and the
// metric of large differences speaks of all of it.
enum class Scale { near, far };
std::string apart(double de00, std::optional<double> difference, Scale scale) {
    if (scale == Scale::near) return "dE " + number(de00, 1);
    return number(difference.value_or(de00), 0) + " away";
}
bool is_near(double de00) {
    return de00 <= colour::near_de00;
}

class ResultText {
  public:
    ResultText(const SolveRequest& asked, const SolveResult& found, measure::MassUnit unit)
        : asked_(asked), found_(found), unit_(unit) {
        if (found.reach && !is_near(found.reach->delta_e)) scale_ = Scale::far;
        for (const auto& one : found.suggestions)
            if (one.proposal.delta_e && !is_near(*one.proposal.delta_e)) scale_ = Scale::far;
    }

    std::string text() const {
        std::string text = asked_.title + "\n" + reach() + scale_words();
        for (std::size_t i = 0; i < found_.suggestions.size(); ++i)
            text += "\n" + suggestion(i, found_.suggestions[i]);
        if (found_.conflict) text += "\n" + conflict(*found_.conflict);
        if (!found_.left_grams.empty()) text += "\n" + left_after_all();
        return text;
    }

  private:
    bool gradient() const { return !asked_.targets.empty(); }
    std::string weight(double grams) const { return measure::print_mass(grams, unit_); }

    std::string reach() const {
        if (!found_.reach || !asked_.problem.goal.target) return "";
        const auto& target = *asked_.problem.goal.target;
        const auto& reach = *found_.reach;
        std::string line = "target Lab " + number(target.lab.l, 1) + ", " + number(target.lab.a, 1) + ", " +
                           number(target.lab.b, 1) + "; ";
        if (reach.delta_e < colour::unseen_de00)
            line += "these lots can reach it";
        else
            line += "these lots come no nearer than " + apart(reach.delta_e, reach.difference, scale_) +
                    ", " + colour::hex(colour::clipped(colour::srgb_from(reach.nearest)));
        return wrapped(line, 2);
    }

    std::string scale_words() const {
        if (scale_ == Scale::near) return "";
        return wrapped(
            "away: on the scale for large differences, CAM02-LCD; 10 and more is plainly another colour", 2);
    }

    std::string head(std::size_t index, const solve::Proposal& proposal) const {
        std::string line = std::to_string(index + 1) + "  " + weight(proposal.total_grams);
        if (proposal.batts > 1) line += " in " + std::to_string(proposal.batts) + " equal batts";
        line += ", " + colour::hex(proposal.srgb);
        if (gradient())
            line += " towards " + colour::hex(colour::clipped(colour::srgb_from(asked_.targets[index].lab)));
        if (proposal.delta_e)
            line += ", " + apart(*proposal.delta_e, proposal.difference, scale_) + " in daylight";
        // Where the match is far off in daylight, another light's figure says nothing.
        if (scale_ == Scale::near && proposal.delta_e_second) {
            line += ", " + colour::told(*proposal.delta_e_second, {}).figure + " under " +
                    std::string(colour::word_for(asked_.problem.goal.second_light));
        }
        return line + "\n";
    }

    std::string row(std::size_t lot, const solve::Proposal& proposal) const {
        const solve::Lot& of = asked_.stock.lots[lot];
        std::string line =
            "   " + left(of.id, 8) + left(name_of(lot), 34) + right(weight(proposal.grams[lot]), 10);
        if (proposal.batts > 1) line += right(weight(proposal.batt_grams[lot]) + " a batt", 17);
        if (!gradient()) {
            const double left_over = proposal.left_grams[lot];
            line += right(left_over > 0.0 ? weight(left_over) + " left" : "all of it", 17);
        }
        return line + "\n";
    }
    std::string name_of(std::size_t lot) const {
        const solve::Lot& of = asked_.stock.lots[lot];
        std::string name = of.name;
        if (name.empty())
            for (const auto& content : of.content) name += (name.empty() ? "" : ", ") + content.fibre;
        while (width_of(name) > 32) name.pop_back();
        return name;
    }

    std::string suggestion(std::size_t index, const shelving::Suggestion& one) const {
        const auto& proposal = one.proposal;
        std::string text = head(index, proposal);
        for (std::size_t lot = 0; lot < proposal.grams.size(); ++lot)
            if (proposal.grams[lot] > 0.0) text += row(lot, proposal);
        if (asked_.problem.goal.use_up)
            text += wrapped(
                "uses " + measure::print_percent(100.0 * proposal.used_share) + " of what was to be used up",
                3);
        if (proposal.cost) text += wrapped("cost " + number(*proposal.cost, 2) + currency(), 3);
        return text + findings(one.forecast);
    }
    std::string currency() const { return asked_.currency.empty() ? "" : " " + asked_.currency; }

    static std::string findings(const forecast::Forecast& forecast) {
        const auto* worst = shelving::worst_of(forecast);
        if (worst == nullptr) return wrapped("no findings", 3);
        const std::size_t count = forecast.findings.size();
        std::string line = count == 1 ? "1 finding, " : std::to_string(count) + " findings, the worst ";
        line += "(" + std::string(staple::word_for(worst->severity)) + "): " + worst->text;
        return wrapped(line, 3);
    }

    std::string conflict(const solve::Conflict& conflict) const {
        std::string text = gradient() ? wrapped("batt " + std::to_string(found_.conflict_at + 1) +
                                                    " of the gradient cannot be made:",
                                                0)
                                      : "";
        return text + wrapped(conflict.words + ".", 0);  // with the least change that would do
    }

    std::string left_after_all() const {
        std::string text = "left of these lots:\n";
        for (std::size_t lot = 0; lot < found_.left_grams.size(); ++lot)
            text += "   " + left(asked_.stock.lots[lot].id, 8) + left(name_of(lot), 34) +
                    right(weight(found_.left_grams[lot]), 10) + "\n";
        return text;
    }

    const SolveRequest& asked_;
    const SolveResult& found_;
    measure::MassUnit unit_;
    Scale scale_ = Scale::near;
};

}  // namespace

std::string found_text(const SolveRequest& asked, const SolveResult& found, measure::MassUnit unit) {
    return ResultText(asked, found, unit).text();
}

}  // namespace battwright::command
