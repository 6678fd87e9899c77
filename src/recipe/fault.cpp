#include "recipe/fault.hpp"

namespace battwright::recipe {

std::string component_field(std::size_t index, std::string_view key) {
    std::string field = "component " + std::to_string(index + 1);
    if (!key.empty()) field += ' ' + std::string(key);
    return field;
}

std::string_view key_of(const Amount& amount) {
    if (std::holds_alternative<measure::Mass>(amount)) return "weight";
    return std::holds_alternative<Percent>(amount) ? "share" : "parts";
}

measure::Complaint without_lines(const Fault& fault) {
    constexpr std::size_t most = 8;
    std::string where;
    for (std::size_t i = 0; i < fault.fields.size() && i < most; ++i) {
        where += (i > 0 ? ", " : "") + fault.fields[i];
    }
    if (fault.fields.size() > most) where += " and " + std::to_string(fault.fields.size() - most) + " more";
    return {fault.what, fault.mend, where};
}

}  // namespace battwright::recipe
