// SPDX-License-Identifier: MIT
// PNG by librsvg, which is loaded when first needed: linked in, it would make every worker process
// start 15 ms later.
#include "ebbline/drawing.h"

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
            throw std::runtime_error(std::string("a PNG needs ") + name + ", which is not here");
    }
    template <class Function>
    Function* find(const char* name) const {
        void* symbol = dlsym(m_handle, name);
        if (symbol == nullptr)
            throw std::runtime_error(std::string("no ") + name + " in the library for PNG");
        return reinterpret_cast<Function*>(symbol);
    }

private:
    void* m_handle;
};

/// The functions that are used, by their own names.
struct Calls {
    Library rsvg{"librsvg-2.so.2"};
    Library cairo{"libcairo.so.2"};
    Library objects{"libgobject-2.0.so.0"};
#define EBBLINE_CALL(library, name)                                                                \
    decltype (&::name)(name) = (library).find<decltype(::name)>(#name)
    EBBLINE_CALL(rsvg, rsvg_handle_new_from_data);
    EBBLINE_CALL(rsvg, rsvg_handle_render_document);
    EBBLINE_CALL(objects, g_object_unref);
    EBBLINE_CALL(cairo, cairo_image_surface_create);
    EBBLINE_CALL(cairo, cairo_create);
    EBBLINE_CALL(cairo, cairo_destroy);
    EBBLINE_CALL(cairo, cairo_surface_destroy);
    EBBLINE_CALL(cairo, cairo_surface_write_to_png_stream);
#undef EBBLINE_CALL
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
        throw std::runtime_error("librsvg did not take the picture");
    std::string png;
    if (call.cairo_surface_write_to_png_stream(surface.get(), append, &png) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("the picture could not be written as PNG");
    return png;
}

} // namespace ebbline::drawing
