# Writes a C++ file that holds the given files as text: cmake -DOUT=... -DFILES=a;b -P embed.cmake
set(body "// Made by embed.cmake; do not edit.\n#include \"ebbline/embedded.h\"\n\n")
string(APPEND body "#include <array>\n\nnamespace ebbline::embedded {\nnamespace {\n")
string(APPEND body "constexpr std::array files{\n")
foreach(path IN LISTS FILES)
  file(READ "${path}" text)
  file(SHA256 "${path}" hash)
  get_filename_component(name "${path}" NAME)
  # A string literal may hold 64 KiB; the models are far smaller, and a longer one fails loudly.
  string(APPEND body "    File{\"${name}\", R\"ebbline_text(${text})ebbline_text\", \"${hash}\"},\n")
endforeach()
string(APPEND body "};\n} // namespace\n\nstd::span<const File> all() {\n    return files;\n}\n\n}\n")
file(WRITE "${OUT}" "${body}")
