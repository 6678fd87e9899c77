// A display for tests that open windows: the one there is, else an Xvfb of our own that dies with the test.
#pragma once

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <string>

namespace display {

// The server started by this program. It must not start afresh (-noreset) whenever a test closes its window.
// Xvfb picks a free number itself and writes it to the pipe when ready.
class Server {
  public:
    Server() {
        int ends[2];
        if (pipe(ends) != 0) return;
        server_ = fork();
        if (server_ == 0) become_xvfb(ends[1]);
        close(ends[1]);
        char byte = 0;
        while (read(ends[0], &byte, 1) == 1 && byte != '\n') number_ += byte;
        close(ends[0]);
        if (!number_.empty()) setenv("DISPLAY", (":" + number_).c_str(), 1);
    }
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server() {
        if (server_ <= 0) return;
        kill(server_, SIGTERM);
        waitpid(server_, nullptr, 0);
    }
    bool ready() const { return !number_.empty(); }

  private:
    [[noreturn]] static void become_xvfb(int number_to) {
        const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
        if (nowhere >= 0) dup2(nowhere, STDERR_FILENO);
        const std::string end = std::to_string(number_to);
        execlp("Xvfb", "Xvfb", "-displayfd", end.c_str(), "-screen", "0", "1920x1200x24", "-nolisten", "tcp",
               "-noreset", static_cast<char*>(nullptr));
        _exit(127);
    }
    pid_t server_ = -1;
    std::string number_;
};

// True when there is a display to open windows on; if not, install Xvfb or set DISPLAY.
inline bool ensure_display() {
    if (const char* there = std::getenv("DISPLAY"); there != nullptr && *there != '\0') return true;
    static const Server server;
    return server.ready();
}

}  // namespace display
