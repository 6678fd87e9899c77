#include "command/json_value.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "text/believe.hpp"
#include "text/numbers.hpp"

namespace battwright::command {
namespace {

// The last of a double's 16 digits are the machine's: its library's logarithm may round otherwise.
double to_twelve_digits(double value) {
    constexpr double nothing = 1e-12;
    if (std::abs(value) < nothing) return 0.0;
    return std::isfinite(value) ? text::to_figures(value, 12) : value;
}

}  // namespace

struct Json::Tree {
    nlohmann::ordered_json value;

    bool is_member() const { return value.is_array() && value.size() == 2 && value[0].is_string(); }
};

Json::Json(std::nullptr_t) : tree_(std::make_unique<Tree>()) {}
Json::Json(Boolean value) : tree_(std::make_unique<Tree>(Tree{value.value})) {}
Json::Json(Signed value) : tree_(std::make_unique<Tree>(Tree{value.value})) {}
Json::Json(Unsigned value) : tree_(std::make_unique<Tree>(Tree{value.value})) {}
Json::Json(double value) : tree_(std::make_unique<Tree>(Tree{to_twelve_digits(value)})) {}
Json::Json(std::string_view text) : tree_(std::make_unique<Tree>(Tree{text})) {}

Json::Json(std::initializer_list<Json> parts) : Json() {
    const bool members =
        std::all_of(parts.begin(), parts.end(), [](const Json& part) { return part.tree_->is_member(); });
    tree_->value = members ? nlohmann::ordered_json::object() : nlohmann::ordered_json::array();
    for (const Json& part : parts) {
        nlohmann::ordered_json& value = part.tree_->value;
        if (members)
            tree_->value[value[0].get_ref<std::string&>()] = std::move(value[1]);
        else
            tree_->value.push_back(std::move(value));
    }
}

Json::Json(const Json& other) : tree_(std::make_unique<Tree>(*other.tree_)) {}
Json::Json(Json&& other) noexcept = default;
Json& Json::operator=(Json other) noexcept {
    std::swap(tree_, other.tree_);
    return *this;
}
Json::~Json() = default;

Json Json::array() {
    Json json;
    json.tree_->value = nlohmann::ordered_json::array();
    return json;
}
Json Json::object() {
    Json json;
    json.tree_->value = nlohmann::ordered_json::object();
    return json;
}

void Json::push_back(Json value) {
    tree_->value.push_back(std::move(value.tree_->value));
}
bool Json::empty() const {
    return tree_->value.empty();
}
Json Json::front() const {
    BATTWRIGHT_BELIEVE(!empty());
    Json json;
    json.tree_->value = tree_->value.front();
    return json;
}
void Json::set(std::string_view key, Json value) {
    tree_->value[std::string(key)] = std::move(value.tree_->value);
}

std::string printed(const Json& json) {
    return json.tree_->value.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace battwright::command
