# Writes a C++ file that holds the given files: cmake -DOUT=... -DFILES=a;b -P embed.cmake
set(body "// Made by embed.cmake; do not edit.\n#include \"ebbline/embedded.h\"\n\n")
string(APPEND body "#include <array>\n\nnamespace ebbline::embedded {\nnamespace {\n")
set(entries "")
set(number 0)
foreach(path IN LISTS FILES)
  file(SHA256 "${path}" hash)
  get_filename_component(name "${path}" NAME)
  if(name MATCHES "[.]mo$")
    # Bytes: a string literal could not hold every one of them.
    file(READ "${path}" bytes HEX)
    string(REGEX REPLACE "(..)" "'\\\\x\\1'," bytes "${bytes}")
    string(APPEND body "constexpr char bytes_${number}[]{${bytes}};\n")
    string(APPEND entries
      "    File{\"${name}\", {bytes_${number}, sizeof bytes_${number}}, \"${hash}\"},\n")
    math(EXPR number "${number} + 1")
  else()
    file(READ "${path}" text)
    # A string literal may hold 64 KiB; the models are far smaller, and a longer one fails loudly.
    string(APPEND entries
      "    File{\"${name}\", R\"ebbline_text(${text})ebbline_text\", \"${hash}\"},\n")
  endif()
endforeach()
string(APPEND body "constexpr std::array files{\n${entries}")
string(APPEND body "};\n} // namespace\n\nstd::span<const File> all() {\n    return files;\n}\n\n}\n")
file(WRITE "${OUT}" "${body}")
