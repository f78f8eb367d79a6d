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
    return text + "set " + start_up_variable + " = " + start_up_value + "\n";
}

std::string prefixOf(pid_t process) {
    return "ebbline-" + std::to_string(process) + "-";
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

// clang-format off
constexpr std::array forbidden_calls{
    // programs and processes
    SCMP_SYS(execve), SCMP_SYS(execveat), SCMP_SYS(fork), SCMP_SYS(vfork), SCMP_SYS(clone),
    SCMP_SYS(clone3), SCMP_SYS(unshare), SCMP_SYS(setns),
    // other processes; abort() sends itself tgkill
    SCMP_SYS(kill), SCMP_SYS(tkill), SCMP_SYS(pidfd_open), SCMP_SYS(ptrace),
    SCMP_SYS(process_vm_readv), SCMP_SYS(process_vm_writev),
    // connections; io_uring makes calls that no filter sees
    SCMP_SYS(socket), SCMP_SYS(connect), SCMP_SYS(bind), SCMP_SYS(listen), SCMP_SYS(accept),
    SCMP_SYS(accept4), SCMP_SYS(io_uring_setup),
    // files, also where the kernel has no Landlock
    SCMP_SYS(open), SCMP_SYS(openat), SCMP_SYS(openat2), SCMP_SYS(creat), SCMP_SYS(truncate),
    SCMP_SYS(unlink), SCMP_SYS(unlinkat), SCMP_SYS(rmdir), SCMP_SYS(rename), SCMP_SYS(renameat),
    SCMP_SYS(renameat2), SCMP_SYS(mkdir), SCMP_SYS(mkdirat), SCMP_SYS(mknod), SCMP_SYS(mknodat),
    SCMP_SYS(link), SCMP_SYS(linkat), SCMP_SYS(symlink), SCMP_SYS(symlinkat), SCMP_SYS(chmod),
    SCMP_SYS(fchmodat), SCMP_SYS(chown), SCMP_SYS(lchown), SCMP_SYS(fchownat), SCMP_SYS(mount),
    SCMP_SYS(umount2), SCMP_SYS(chroot), SCMP_SYS(pivot_root)};
// clang-format on

void forbidCalls() {
    scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ALLOW);
    if (filter == nullptr)
        return;
    for (const int call : forbidden_calls)
        seccomp_rule_add(filter, SCMP_ACT_ERRNO(EPERM), call, 0);
    seccomp_load(filter);
    seccomp_release(filter);
}

} // namespace

PrivateFolder::PrivateFolder() {
    std::error_code error;
    const auto parent = std::filesystem::temp_directory_path(error);
    if (error)
        throw std::system_error(error, "TMPDIR or the like names no folder");
    std::string pattern = (parent / (prefixOf(getpid()) + "XXXXXX")).string();
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

void removeLeftOver(pid_t process) {
    std::error_code ignored;
    const std::string prefix = prefixOf(process);
    for (const auto& entry : std::filesystem::directory_iterator(
             std::filesystem::temp_directory_path(ignored), ignored))
        if (entry.path().filename().string().starts_with(prefix))
            std::filesystem::remove_all(entry.path(), ignored);
}

void confine() {
    prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
    forbidFiles();
    forbidCalls();
}

} // namespace ebbline::engine
