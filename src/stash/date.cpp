#include "stash/date.hpp"

#include <cstdio>
#include <ctime>

namespace battwright::stash {
namespace {

// Value of the digits, -1 when one of them is none.
int number_in(std::string_view digits) {
    int value = 0;
    for (const char c : digits) {
        if (c < '0' || c > '9') return -1;
        value = value * 10 + (c - '0');
    }
    return value;
}

}  // namespace

measure::Expected<std::chrono::sys_days> parse_date(std::string_view text) {
    const auto complaint = [&] {
        return tl::make_unexpected(measure::Complaint{"the date " + measure::quoted(text) + " is none",
                                                      "write year, month and day, as in 2024-05-17", "date"});
    };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return complaint();
    const int year = number_in(text.substr(0, 4));
    const int month = number_in(text.substr(5, 2));
    const int day = number_in(text.substr(8));
    if (year < 1000 || month < 1 || day < 1) return complaint();
    const std::chrono::year_month_day date{std::chrono::year(year),
                                           std::chrono::month(static_cast<unsigned>(month)),
                                           std::chrono::day(static_cast<unsigned>(day))};
    if (!date.ok()) return complaint();
    return std::chrono::sys_days(date);
}

std::string print_date(std::chrono::sys_days day) {
    const std::chrono::year_month_day date(day);
    char text[32];
    std::snprintf(text, sizeof text, "%04d-%02u-%02u", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
    return text;
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    char text[32];
    std::snprintf(text, sizeof text, "%04d-%02d-%02d", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
    return text;
}

}  // namespace battwright::stash
