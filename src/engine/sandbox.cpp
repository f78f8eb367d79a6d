// SPDX-License-Identifier: MIT
// Walls around the simulator in a worker.
#include "sandbox.h"

#include "ebbline/embedded.h"

#include <linux/landlock.h>
#include <seccomp.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <string>
#include <system_error>

namespace ebbline::engine {
namespace {

std::string startUpText() {
    std::string text(embedded::find("spinit"));
    const std::string mark = "@CODE_MODELS@";
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark))
        text.replace(at, mark.size(), EBBLINE_CODE_MODELS);
    return text;
}

void writeFile(const std::filesystem::path& path, const std::string& text) {
    std::ofstream file(path, std::ios::binary);
    file << text;
    if (!file.flush())
        throw std::system_error(errno, std::generic_category(), "cannot write " + path.string());
}

/// No file may be opened, made or removed. Code models were loaded before.
void forbidFiles() {
    landlock_ruleset_attr rules{};
    rules.handled_access_fs =
        LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_WRITE_FILE | LANDLOCK_ACCESS_FS_READ_FILE |
        LANDLOCK_ACCESS_FS_READ_DIR | LANDLOCK_ACCESS_FS_REMOVE_DIR |
        LANDLOCK_ACCESS_FS_REMOVE_FILE | LANDLOCK_ACCESS_FS_MAKE_DIR | LANDLOCK_ACCESS_FS_MAKE_REG |
        LANDLOCK_ACCESS_FS_MAKE_SOCK | LANDLOCK_ACCESS_FS_MAKE_FIFO | LANDLOCK_ACCESS_FS_MAKE_SYM;
    const long ruleset = syscall(SYS_landlock_create_ruleset, &rules, sizeof rules, 0);
    if (ruleset < 0)
        return; // this kernel has none
    syscall(SYS_landlock_restrict_self, ruleset, 0);
    close(static_cast<int>(ruleset));
}

void forbidCalls() {
    scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ALLOW);
    if (filter == nullptr)
        return;
    constexpr std::array calls{SCMP_SYS(execve),
                               SCMP_SYS(execveat),
                               SCMP_SYS(fork),
                               SCMP_SYS(vfork),
                               SCMP_SYS(clone),
                               SCMP_SYS(clone3),
                               SCMP_SYS(socket),
                               SCMP_SYS(connect),
                               SCMP_SYS(bind),
                               SCMP_SYS(listen),
                               SCMP_SYS(accept4),
                               SCMP_SYS(ptrace),
                               SCMP_SYS(mount),
                               SCMP_SYS(process_vm_writev),
                               SCMP_SYS(process_vm_readv),
                               SCMP_SYS(chmod),
                               SCMP_SYS(unlink),
                               SCMP_SYS(rename)};
    for (const int call : calls)
        seccomp_rule_add(filter, SCMP_ACT_ERRNO(EPERM), call, 0);
    seccomp_load(filter);
    seccomp_release(filter);
}

} // namespace

PrivateFolder::PrivateFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "ebbline-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr)
        throw std::system_error(errno, std::generic_category(), "cannot make " + pattern);
    m_path = pattern;
    std::filesystem::current_path(m_path);
    writeFile(m_path / ".spiceinit", "* nothing\n");
    writeFile(m_path / "spinit", startUpText());
    setenv("SPICE_SCRIPTS", m_path.c_str(), 1);
    setenv("OMP_NUM_THREADS", "1", 1);
}

PrivateFolder::~PrivateFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(m_path, ignored);
}

void confine() {
    prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
    forbidFiles();
    forbidCalls();
}

} // namespace ebbline::engine
