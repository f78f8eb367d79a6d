// SPDX-License-Identifier: MIT
// PNG by librsvg, which is loaded when first needed: linked in, it would make every worker process
// start 15 ms later.
#include "ebbline/drawing.h"
#include "ebbline/words.h"

#include <cairo.h>
#include <dlfcn.h>
#include <librsvg/rsvg.h>

#include <cmath>
#include <memory>
#include <stdexcept>

namespace ebbline::drawing {
namespace {

/// A shared library, loaded for good: what it set up for itself cannot be taken down again.
class Library {
public:
    explicit Library(const char* name) : m_handle(dlopen(name, RTLD_NOW | RTLD_GLOBAL)) {
        if (m_handle == nullptr)
            throw std::runtime_error(words("a PNG needs {}, which is not here", name));
    }
    /// Sets a pointer to the function of that name.
    template <class Function>
    void find(const char* name, Function*& function) const {
        void* symbol = dlsym(m_handle, name);
        if (symbol == nullptr)
            throw std::runtime_error(words("no {} in the library for PNG", name));
        function = reinterpret_cast<Function*>(symbol);
    }

private:
    void* m_handle;
};

/// The functions that are used, by their own names.
struct Calls {
    decltype(&::rsvg_handle_new_from_data) rsvg_handle_new_from_data = nullptr;
    decltype(&::rsvg_handle_render_document) rsvg_handle_render_document = nullptr;
    decltype(&::g_object_unref) g_object_unref = nullptr;
    decltype(&::cairo_image_surface_create) cairo_image_surface_create = nullptr;
    decltype(&::cairo_create) cairo_create = nullptr;
    decltype(&::cairo_destroy) cairo_destroy = nullptr;
    decltype(&::cairo_surface_destroy) cairo_surface_destroy = nullptr;
    decltype(&::cairo_surface_write_to_png_stream) cairo_surface_write_to_png_stream = nullptr;

    Calls() {
        const Library rsvg("librsvg-2.so.2");
        const Library objects("libgobject-2.0.so.0");
        const Library cairo("libcairo.so.2");
        rsvg.find("rsvg_handle_new_from_data", rsvg_handle_new_from_data);
        rsvg.find("rsvg_handle_render_document", rsvg_handle_render_document);
        objects.find("g_object_unref", g_object_unref);
        cairo.find("cairo_image_surface_create", cairo_image_surface_create);
        cairo.find("cairo_create", cairo_create);
        cairo.find("cairo_destroy", cairo_destroy);
        cairo.find("cairo_surface_destroy", cairo_surface_destroy);
        cairo.find("cairo_surface_write_to_png_stream", cairo_surface_write_to_png_stream);
    }
};

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int count) {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
    return CAIRO_STATUS_SUCCESS;
}

} // namespace

std::string writePng(const Drawing& drawing) {
    const Calls call;
    const std::string svg = writeSvg(drawing);
    const std::unique_ptr<RsvgHandle, void (*)(void*)> handle(
        call.rsvg_handle_new_from_data(
            reinterpret_cast<const guint8*>(svg.data()), svg.size(), nullptr),
        call.g_object_unref);
    const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface(
        call.cairo_image_surface_create(CAIRO_FORMAT_ARGB32,
                                        static_cast<int>(std::lround(drawing.width)),
                                        static_cast<int>(std::lround(drawing.height))),
        call.cairo_surface_destroy);
    const std::unique_ptr<cairo_t, void (*)(cairo_t*)> context(call.cairo_create(surface.get()),
                                                               call.cairo_destroy);
    const RsvgRectangle whole{0, 0, drawing.width, drawing.height};
    if (!handle || !call.rsvg_handle_render_document(handle.get(), context.get(), &whole, nullptr))
        throw std::runtime_error(words("librsvg did not take the picture"));
    std::string png;
    if (call.cairo_surface_write_to_png_stream(surface.get(), append, &png) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(words("the picture could not be written as PNG"));
    return png;
}

} // namespace ebbline::drawing
