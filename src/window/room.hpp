// The window is the face of `app`: its views speak of app's values without naming that room each time.
#pragma once

namespace battwright::app {}

namespace battwright::window {
using namespace app;
}
