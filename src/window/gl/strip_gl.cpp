#include "window/gl/strip_gl.hpp"

#include <epoxy/gl.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

#include "app/lay/canvas.hpp"
#include "strip/numbers.hpp"
#include "strip/picture.hpp"

namespace battwright::embedded {
extern const unsigned char shared_glsl[], fibre_glsl[], yarn_glsl[], fibre_numbers_glsl[],
    yarn_numbers_glsl[], strip_frag[], yarn_frag[], strip_vert[];
extern const std::size_t shared_glsl_size, fibre_glsl_size, yarn_glsl_size, fibre_numbers_glsl_size,
    yarn_numbers_glsl_size, strip_frag_size, yarn_frag_size, strip_vert_size;
}  // namespace battwright::embedded

namespace battwright::window {
namespace {

using measure::Complaint;
using measure::Expected;

// Names of a picture's tables in its shader.
using TableNames = std::array<const char*, 4>;
constexpr TableNames strip_tables{"strands", "picks", "fibres", "cells"};
constexpr TableNames yarn_tables{"plies", "picks", "fibres", "lumps"};
constexpr std::array<GLenum, 4> strip_formats{GL_RGBA32F, GL_RG32F, GL_RGBA32F, GL_RGBA32F};
constexpr std::array<GLenum, 4> yarn_formats{GL_RGBA32F, GL_RG32F, GL_RGBA32F, GL_R32F};
constexpr std::size_t table_count = strip_tables.size();

std::string text_of(const unsigned char* bytes, std::size_t size) {
    return {reinterpret_cast<const char*>(bytes), size};
}

void put_in(std::string& text, std::string_view mark, const std::string& what) {
    if (const std::size_t at = text.find(mark); at != std::string::npos) text.replace(at, mark.size(), what);
}

// A picture's frame with its numbers, what all pictures share and its own function put in.
std::string fragment_text(std::string text, const std::string& numbers, const std::string& picture) {
    const std::string shared = text_of(embedded::shared_glsl, embedded::shared_glsl_size);
    put_in(text, "\n// numbers\n", "\n#line 1 3\n" + numbers + "\n#line 1 0\n");
    put_in(text, "\n// picture\n", "\n#line 1 1\n" + shared + "\n#line 1 2\n" + picture);
    return text;
}
std::string strip_fragment() {
    return fragment_text(text_of(embedded::strip_frag, embedded::strip_frag_size),
                         text_of(embedded::fibre_numbers_glsl, embedded::fibre_numbers_glsl_size),
                         text_of(embedded::fibre_glsl, embedded::fibre_glsl_size));
}
std::string yarn_fragment() {
    return fragment_text(text_of(embedded::yarn_frag, embedded::yarn_frag_size),
                         text_of(embedded::yarn_numbers_glsl, embedded::yarn_numbers_glsl_size),
                         text_of(embedded::yarn_glsl, embedded::yarn_glsl_size));
}

tl::unexpected<Complaint> no_drawing(const std::string& what) {
    return tl::make_unexpected(Complaint{
        what, "update the graphics driver; the picture can still be drawn without it", "the fibre picture"});
}

std::string first_line(const std::string& log) {
    return log.substr(0, log.find_first_of("\r\n\0"));
}

Expected<void> compile(GLuint shader, const std::string& text) {
    const char* source = text.c_str();
    glShaderSource(shader, 1, &source, nullptr);
    glCompileShader(shader);
    GLint done = GL_FALSE;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &done);
    if (done == GL_TRUE) return {};
    std::string log(1024, '\0');
    glGetShaderInfoLog(shader, static_cast<GLsizei>(log.size()), nullptr, log.data());
    return no_drawing("the graphics driver refuses the shader: " + first_line(log));
}

Expected<void> link(GLuint program) {
    glLinkProgram(program);
    GLint done = GL_FALSE;
    glGetProgramiv(program, GL_LINK_STATUS, &done);
    if (done == GL_TRUE) return {};
    std::string log(1024, '\0');
    glGetProgramInfoLog(program, static_cast<GLsizei>(log.size()), nullptr, log.data());
    return no_drawing("the graphics driver cannot link the shaders: " + first_line(log));
}

// A buffer of floats, read as texels of `format`.
void fill_table(GLuint texture, GLuint buffer, GLenum format, const std::vector<float>& numbers) {
    glBindBuffer(GL_TEXTURE_BUFFER, buffer);
    glBufferData(GL_TEXTURE_BUFFER, static_cast<GLsizeiptr>(numbers.size() * sizeof(float)), numbers.data(),
                 GL_DYNAMIC_DRAW);
    glBindTexture(GL_TEXTURE_BUFFER, texture);
    glTexBuffer(GL_TEXTURE_BUFFER, format, buffer);
}

Expected<void> room_for(std::size_t rows) {
    GLint most = 0;
    glGetIntegerv(GL_MAX_TEXTURE_BUFFER_SIZE, &most);
    if (rows <= static_cast<std::size_t>(most)) return {};
    return no_drawing("the graphics driver has no room for a table of " + std::to_string(rows) + " rows");
}

// Puts back, on leaving, what drawing changes.
class RestoreDrawing {
  public:
    RestoreDrawing() {
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &draw_frame_);
        glGetIntegerv(GL_READ_FRAMEBUFFER_BINDING, &read_frame_);
        glGetIntegerv(GL_CURRENT_PROGRAM, &program_);
        glGetIntegerv(GL_VERTEX_ARRAY_BINDING, &vertices_);
        glGetIntegerv(GL_ACTIVE_TEXTURE, &unit_);
        glGetIntegerv(GL_VIEWPORT, viewport_.data());
        glGetIntegerv(GL_TEXTURE_BUFFER_BINDING, &buffer_);
        glGetIntegerv(GL_TEXTURE_BINDING_2D, &picture_);
        for (std::size_t i = 0; i < textures_.size(); ++i) {
            glActiveTexture(static_cast<GLenum>(GL_TEXTURE0 + i));
            glGetIntegerv(GL_TEXTURE_BINDING_BUFFER, &textures_[i]);
        }
        glActiveTexture(static_cast<GLenum>(unit_));
        for (std::size_t i = 0; i < switches.size(); ++i) on_[i] = glIsEnabled(switches[i]);
        for (const GLenum one : switches) glDisable(one);
    }
    RestoreDrawing(const RestoreDrawing&) = delete;
    RestoreDrawing& operator=(const RestoreDrawing&) = delete;
    ~RestoreDrawing() {
        glBindFramebuffer(GL_DRAW_FRAMEBUFFER, name(draw_frame_));
        glBindFramebuffer(GL_READ_FRAMEBUFFER, name(read_frame_));
        glUseProgram(name(program_));
        glBindVertexArray(name(vertices_));
        glViewport(viewport_[0], viewport_[1], viewport_[2], viewport_[3]);
        glBindBuffer(GL_TEXTURE_BUFFER, name(buffer_));
        for (std::size_t i = 0; i < textures_.size(); ++i) {
            glActiveTexture(static_cast<GLenum>(GL_TEXTURE0 + i));
            glBindTexture(GL_TEXTURE_BUFFER, name(textures_[i]));
        }
        glActiveTexture(static_cast<GLenum>(unit_));
        glBindTexture(GL_TEXTURE_2D, name(picture_));
        for (std::size_t i = 0; i < switches.size(); ++i)
            if (on_[i] == GL_TRUE) glEnable(switches[i]);
    }

  private:
    static constexpr std::array<GLenum, 6> switches{GL_BLEND,        GL_SCISSOR_TEST, GL_DEPTH_TEST,
                                                    GL_STENCIL_TEST, GL_CULL_FACE,    GL_FRAMEBUFFER_SRGB};
    static GLuint name(GLint value) { return static_cast<GLuint>(value); }
    GLint draw_frame_ = 0, read_frame_ = 0, program_ = 0, vertices_ = 0, unit_ = 0, buffer_ = 0, picture_ = 0;
    std::array<GLint, 4> viewport_{};
    std::array<GLint, table_count> textures_{};
    std::array<GLboolean, switches.size()> on_{};
};

}  // namespace

bool drawn_by_software() {
    const auto* name = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
    if (name == nullptr) return false;
    constexpr std::array<std::string_view, 4> by_cpu{"llvmpipe", "softpipe", "SwiftShader", "Software"};
    return std::any_of(by_cpu.begin(), by_cpu.end(), [name](std::string_view word) {
        return std::string_view(name).find(word) != std::string_view::npos;
    });
}

struct StripRenderer::Parts {
    GLuint strip_program = 0, yarn_program = 0, vertices = 0;
    // Drawn into by turns, so that a changed picture has another name than the one before.
    struct Canvas {
        GLuint frame = 0, picture = 0;
        int width = 0, height = 0;
    };
    std::array<Canvas, 2> canvases{};
    std::size_t latest = 0;
    std::array<GLuint, table_count> tables{}, buffers{};
    GLuint filled = 0;  // the program that the tables are filled for
    std::function<void(float width, float height)> tell_numbers;

    Parts() {
        strip_program = glCreateProgram();
        glGenVertexArrays(1, &vertices);
        glGenTextures(static_cast<GLsizei>(tables.size()), tables.data());
        glGenBuffers(static_cast<GLsizei>(buffers.size()), buffers.data());
    }
    Parts(const Parts&) = delete;
    Parts& operator=(const Parts&) = delete;
    ~Parts() {
        glDeleteProgram(strip_program);
        if (yarn_program != 0) glDeleteProgram(yarn_program);
        glDeleteVertexArrays(1, &vertices);
        glDeleteTextures(static_cast<GLsizei>(tables.size()), tables.data());
        glDeleteBuffers(static_cast<GLsizei>(buffers.size()), buffers.data());
        for (const Canvas& canvas : canvases) {
            glDeleteFramebuffers(1, &canvas.frame);
            glDeleteTextures(1, &canvas.picture);
        }
    }

    static Expected<void> build(GLuint program, const std::string& fragment_source) {
        const GLuint vertex = glCreateShader(GL_VERTEX_SHADER), fragment = glCreateShader(GL_FRAGMENT_SHADER);
        Expected<void> done = compile(vertex, text_of(embedded::strip_vert, embedded::strip_vert_size));
        if (done) done = compile(fragment, fragment_source);
        if (done) {
            glAttachShader(program, vertex);
            glAttachShader(program, fragment);
            done = link(program);
        }
        glDeleteShader(vertex);
        glDeleteShader(fragment);
        return done;
    }
    // Compiled when first wanted, as many a session never looks at yarn.
    Expected<void> build_yarn() {
        if (yarn_program != 0) return {};
        const GLuint program = glCreateProgram();
        if (auto built = build(program, yarn_fragment()); !built) {
            glDeleteProgram(program);
            return built;
        }
        yarn_program = program;
        return {};
    }
    GLint uniform(const char* name) const { return glGetUniformLocation(filled, name); }
    void set(const char* name, std::uint32_t value) const { glUniform1ui(uniform(name), value); }
    void set(const char* name, int value) const { glUniform1i(uniform(name), value); }
    void set(const char* name, float value) const { glUniform1f(uniform(name), value); }
    void set(const char* name, glm::vec2 value) const { glUniform2f(uniform(name), value.x, value.y); }
    template <class AnyScene>
    void keep_numbers(const AnyScene& scene) {
        tell_numbers = [this, numbers = strip::shader::numbers_of(scene)](float across, float down) {
            strip::shader::each_number(strip::shader::resized(numbers, across, down),
                                       [this](const char* name, auto value) { this->set(name, value); });
        };
    }
    void fill(GLuint program, const TableNames& names, const std::array<GLenum, table_count>& formats,
              const std::array<const std::vector<float>*, table_count>& numbers);
    static bool size_to(Canvas& canvas, int width, int height);
};

void StripRenderer::Parts::fill(GLuint program, const TableNames& names,
                                const std::array<GLenum, table_count>& formats,
                                const std::array<const std::vector<float>*, table_count>& numbers) {
    for (std::size_t i = 0; i < table_count; ++i) fill_table(tables[i], buffers[i], formats[i], *numbers[i]);
    filled = program;
    glUseProgram(program);
    for (std::size_t i = 0; i < table_count; ++i) glUniform1i(uniform(names[i]), static_cast<GLint>(i));
}

// False when the driver cannot draw into a texture of that size.
bool StripRenderer::Parts::size_to(Canvas& canvas, int width, int height) {
    if (canvas.frame != 0 && canvas.width == width && canvas.height == height) return true;
    canvas.width = width;
    canvas.height = height;
    if (canvas.frame == 0) glGenFramebuffers(1, &canvas.frame);
    if (canvas.picture == 0) glGenTextures(1, &canvas.picture);
    glBindTexture(GL_TEXTURE_2D, canvas.picture);
    for (const GLenum filter : std::array<GLenum, 2>{GL_TEXTURE_MIN_FILTER, GL_TEXTURE_MAG_FILTER})
        glTexParameteri(GL_TEXTURE_2D, filter, GL_LINEAR);
    for (const GLenum edge : std::array<GLenum, 2>{GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T})
        glTexParameteri(GL_TEXTURE_2D, edge, GL_CLAMP_TO_EDGE);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    glBindFramebuffer(GL_FRAMEBUFFER, canvas.frame);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, canvas.picture, 0);
    return glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
}

StripRenderer::StripRenderer(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
StripRenderer::StripRenderer(StripRenderer&&) noexcept = default;
StripRenderer& StripRenderer::operator=(StripRenderer&&) noexcept = default;
StripRenderer::~StripRenderer() = default;

Expected<StripRenderer> StripRenderer::make() {
    auto parts = std::make_unique<Parts>();
    if (const auto built = Parts::build(parts->strip_program, strip_fragment()); !built)
        return tl::make_unexpected(built.error());
    return StripRenderer(std::move(parts));
}

Expected<void> StripRenderer::upload(const strip::Scene& scene) {
    if (scene.strand_count <= 0) return no_drawing("there is no fibre to draw");
    if (auto fits = room_for(std::max(scene.fibres.size(), scene.strands.size()) / 4); !fits) return fits;
    const RestoreDrawing restore;
    parts_->fill(parts_->strip_program, strip_tables, strip_formats,
                 {&scene.strands, &scene.picks, &scene.fibres, &scene.cells});
    parts_->keep_numbers(scene);
    return {};
}

Expected<void> StripRenderer::upload(const strip::YarnScene& scene) {
    if (scene.ply_count <= 0) return no_drawing("there is no yarn to draw");
    if (auto fits = room_for(scene.picks.size() / 2); !fits) return fits;
    if (auto built = parts_->build_yarn(); !built) return built;
    const RestoreDrawing restore;
    parts_->fill(parts_->yarn_program, yarn_tables, yarn_formats,
                 {&scene.plies, &scene.picks, &scene.fibres, &scene.lumps});
    parts_->keep_numbers(scene);
    return {};
}

Expected<void> StripRenderer::draw(int width, int height) {
    GLint most = 0;
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &most);
    if (parts_->filled == 0) return no_drawing("there is no fibre to draw");
    if (width <= 0 || height <= 0 || width > most || height > most)
        return no_drawing("the graphics driver draws 1 to " + std::to_string(most) + " pixels a side, not " +
                          std::to_string(width) + " x " + std::to_string(height));
    const RestoreDrawing restore;
    const std::size_t next = 1 - parts_->latest;
    Parts::Canvas& canvas = parts_->canvases[next];
    if (!Parts::size_to(canvas, width, height))
        return no_drawing("the graphics driver cannot draw into a texture");
    for (std::size_t i = 0; i < table_count; ++i) {
        glActiveTexture(static_cast<GLenum>(GL_TEXTURE0 + i));
        glBindTexture(GL_TEXTURE_BUFFER, parts_->tables[i]);
    }
    glBindFramebuffer(GL_FRAMEBUFFER, canvas.frame);
    glViewport(0, 0, width, height);
    glUseProgram(parts_->filled);
    parts_->tell_numbers(static_cast<float>(width), static_cast<float>(height));
    glBindVertexArray(parts_->vertices);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    parts_->latest = next;
    return {};
}

unsigned StripRenderer::texture() const {
    return parts_->canvases[parts_->latest].picture;
}

strip::Image StripRenderer::image() const {
    strip::Image image;
    const Parts::Canvas& canvas = parts_->canvases[parts_->latest];
    if (canvas.picture == 0) return image;
    image.width = canvas.width;
    image.height = canvas.height;
    image.rgb.resize(3 * static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height));
    const RestoreDrawing restore;
    GLint alignment = 4;
    glGetIntegerv(GL_PACK_ALIGNMENT, &alignment);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, canvas.frame);
    glReadPixels(0, 0, image.width, image.height, GL_RGB, GL_UNSIGNED_BYTE, image.rgb.data());
    glPixelStorei(GL_PACK_ALIGNMENT, alignment);
    return image;
}

}  // namespace battwright::window
