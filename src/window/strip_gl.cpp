#include "window/strip_gl.hpp"

#include <epoxy/gl.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

namespace battwright::embedded {
extern const unsigned char fibre_glsl[], strip_frag[], strip_vert[];
extern const std::size_t fibre_glsl_size, strip_frag_size, strip_vert_size;
}  // namespace battwright::embedded

namespace battwright::window {
namespace {

using measure::Complaint;
using measure::Expected;

constexpr std::array<const char*, 4> table_names{"strands", "picks", "fibres", "cells"};

std::string text_of(const unsigned char* bytes, std::size_t size) {
    return {reinterpret_cast<const char*>(bytes), size};
}

std::string fragment_text() {
    std::string text = text_of(embedded::strip_frag, embedded::strip_frag_size);
    constexpr std::string_view mark = "\n// fibre\n";
    const std::size_t at = text.find(mark);
    const std::string fibre = text_of(embedded::fibre_glsl, embedded::fibre_glsl_size);
    if (at != std::string::npos) text.replace(at, mark.size(), "\n#line 1 1\n" + fibre);
    return text;
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

// Puts back, on leaving, what drawing changes.
class Restore {
  public:
    Restore() {
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
    Restore(const Restore&) = delete;
    Restore& operator=(const Restore&) = delete;
    ~Restore() {
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
    std::array<GLint, table_names.size()> textures_{};
    std::array<GLboolean, switches.size()> on_{};
};

}  // namespace

struct StripRenderer::Parts {
    GLuint program = 0, vertices = 0, frame = 0, picture = 0;
    std::array<GLuint, table_names.size()> tables{}, buffers{};
    int width = 0, height = 0;
    int field_columns = 1, field_rows = 1;
    bool filled = false;

    Parts() {
        program = glCreateProgram();
        glGenVertexArrays(1, &vertices);
        glGenTextures(static_cast<GLsizei>(tables.size()), tables.data());
        glGenBuffers(static_cast<GLsizei>(buffers.size()), buffers.data());
    }
    Parts(const Parts&) = delete;
    Parts& operator=(const Parts&) = delete;
    ~Parts() {
        glDeleteProgram(program);
        glDeleteVertexArrays(1, &vertices);
        glDeleteTextures(static_cast<GLsizei>(tables.size()), tables.data());
        glDeleteBuffers(static_cast<GLsizei>(buffers.size()), buffers.data());
        glDeleteFramebuffers(1, &frame);
        glDeleteTextures(1, &picture);
    }

    Expected<void> build() const {
        const GLuint vertex = glCreateShader(GL_VERTEX_SHADER), fragment = glCreateShader(GL_FRAGMENT_SHADER);
        Expected<void> done = compile(vertex, text_of(embedded::strip_vert, embedded::strip_vert_size));
        if (done) done = compile(fragment, fragment_text());
        if (done) {
            glAttachShader(program, vertex);
            glAttachShader(program, fragment);
            done = link(program);
        }
        glDeleteShader(vertex);
        glDeleteShader(fragment);
        return done;
    }
    GLint uniform(const char* name) const { return glGetUniformLocation(program, name); }
    void set_numbers(const strip::Scene& scene) const {
        glUseProgram(program);
        for (std::size_t i = 0; i < table_names.size(); ++i)
            glUniform1i(uniform(table_names[i]), static_cast<GLint>(i));
        glUniform1ui(uniform("seed"), scene.seed);
        glUniform1i(uniform("strand_count"), scene.strand_count);
        glUniform1i(uniform("field_columns"), scene.field_columns);
        glUniform1i(uniform("field_rows"), scene.field_rows);
    }
    bool size_to(int new_width, int new_height);
};

// False when the driver cannot draw into a texture of that size.
bool StripRenderer::Parts::size_to(int new_width, int new_height) {
    if (frame != 0 && width == new_width && height == new_height) return true;
    width = new_width;
    height = new_height;
    if (frame == 0) glGenFramebuffers(1, &frame);
    if (picture == 0) glGenTextures(1, &picture);
    glBindTexture(GL_TEXTURE_2D, picture);
    for (const GLenum filter : std::array<GLenum, 2>{GL_TEXTURE_MIN_FILTER, GL_TEXTURE_MAG_FILTER})
        glTexParameteri(GL_TEXTURE_2D, filter, GL_LINEAR);
    for (const GLenum edge : std::array<GLenum, 2>{GL_TEXTURE_WRAP_S, GL_TEXTURE_WRAP_T})
        glTexParameteri(GL_TEXTURE_2D, edge, GL_CLAMP_TO_EDGE);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    glBindFramebuffer(GL_FRAMEBUFFER, frame);
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, picture, 0);
    return glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
}

StripRenderer::StripRenderer(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
StripRenderer::StripRenderer(StripRenderer&&) noexcept = default;
StripRenderer& StripRenderer::operator=(StripRenderer&&) noexcept = default;
StripRenderer::~StripRenderer() = default;

Expected<StripRenderer> StripRenderer::make() {
    auto parts = std::make_unique<Parts>();
    if (const auto built = parts->build(); !built) return tl::make_unexpected(built.error());
    return StripRenderer(std::move(parts));
}

Expected<void> StripRenderer::upload(const strip::Scene& scene) {
    if (scene.strand_count <= 0) return no_drawing("there is no fibre to draw");
    GLint most = 0;
    glGetIntegerv(GL_MAX_TEXTURE_BUFFER_SIZE, &most);
    const std::size_t rows = std::max(scene.fibres.size(), scene.strands.size()) / 4;
    if (rows > static_cast<std::size_t>(most))
        return no_drawing("the graphics driver has no room for a table of " + std::to_string(rows) + " rows");
    const Restore restore;
    const std::array<const std::vector<float>*, table_names.size()> tables{&scene.strands, &scene.picks,
                                                                           &scene.fibres, &scene.cells};
    for (std::size_t i = 0; i < tables.size(); ++i)
        fill_table(parts_->tables[i], parts_->buffers[i], i == 1 ? GL_RG32F : GL_RGBA32F, *tables[i]);
    parts_->set_numbers(scene);
    parts_->field_columns = scene.field_columns;
    parts_->field_rows = scene.field_rows;
    parts_->filled = true;
    return {};
}

Expected<void> StripRenderer::draw(int width, int height) {
    GLint most = 0;
    glGetIntegerv(GL_MAX_TEXTURE_SIZE, &most);
    if (!parts_->filled) return no_drawing("there is no fibre to draw");
    if (width <= 0 || height <= 0 || width > most || height > most)
        return no_drawing("the graphics driver draws 1 to " + std::to_string(most) + " pixels a side, not " +
                          std::to_string(width) + " x " + std::to_string(height));
    const Restore restore;
    if (!parts_->size_to(width, height)) return no_drawing("the graphics driver cannot draw into a texture");
    for (std::size_t i = 0; i < table_names.size(); ++i) {
        glActiveTexture(static_cast<GLenum>(GL_TEXTURE0 + i));
        glBindTexture(GL_TEXTURE_BUFFER, parts_->tables[i]);
    }
    glBindFramebuffer(GL_FRAMEBUFFER, parts_->frame);
    glViewport(0, 0, width, height);
    glUseProgram(parts_->program);
    glUniform2f(parts_->uniform("cells_per_px"),
                static_cast<float>(parts_->field_columns) / static_cast<float>(width),
                static_cast<float>(parts_->field_rows) / static_cast<float>(height));
    glBindVertexArray(parts_->vertices);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    return {};
}

unsigned StripRenderer::texture() const {
    return parts_->picture;
}

strip::Image StripRenderer::image() const {
    strip::Image image;
    if (parts_->picture == 0) return image;
    image.width = parts_->width;
    image.height = parts_->height;
    image.rgb.resize(3 * static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height));
    const Restore restore;
    GLint alignment = 4;
    glGetIntegerv(GL_PACK_ALIGNMENT, &alignment);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, parts_->frame);
    glReadPixels(0, 0, image.width, image.height, GL_RGB, GL_UNSIGNED_BYTE, image.rgb.data());
    glPixelStorei(GL_PACK_ALIGNMENT, alignment);
    return image;
}

}  // namespace battwright::window
