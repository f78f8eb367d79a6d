# What every test's processes find in their environment: English, and what is no leak of ours.
set(ENV{LC_ALL} C.UTF-8)
set(ENV{LSAN_OPTIONS} "suppressions=${CMAKE_CURRENT_LIST_DIR}/leaks.supp:print_suppressions=0")
