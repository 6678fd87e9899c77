// A QR code as a square of modules.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace battwright::card {

struct QrCode {
    int modules = 0;  // along a side, without the quiet zone
    std::vector<bool> dark;
};
// The quiet zone round a code, in modules (ISO/IEC 18004).
inline constexpr int quiet_modules = 4;

// Nothing when the text is too long for any QR code (2,953 bytes) or empty. Text that is not ASCII is marked
// as UTF-8. With error correction M where that costs no larger code than `most_modules`, else L.
std::optional<QrCode> qr_of(const std::string& text, int most_modules);

}  // namespace battwright::card
