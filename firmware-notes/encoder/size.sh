#!/bin/sh
# Size of the encoder for ARM Cortex-M0 and M4 in bytes: code and constants, memory of its own, stack.
#
#   sh firmware-notes/encoder/size.sh
#
# Needs Debian's gcc-arm-none-eabi. Code is linked whole, with the compiler's helpers (division), without the example
# and without a C library. Stack is that of the deepest path: a number written into a record of a pack.
set -eu

if ! command -v arm-none-eabi-gcc >/dev/null 2>&1; then
  echo "size.sh: expected arm-none-eabi-gcc, got none: install Debian's gcc-arm-none-eabi (about 460 MB)" >&2
  exit 1
fi

cd "$(dirname "$0")"
built=$(mktemp -d)
trap 'rm -rf "$built"' EXIT
deepest='sl_pack_write|add_record|sl_text_add_milli|sl_text_add_whole|add_character'

compile() { # compile CORE: an object and a table of stacks for each source
  rm -f "$built"/*
  for source in *.c; do
    [ "$source" = example.c ] && continue
    arm-none-eabi-gcc -std=c99 -Wall -Wextra -Werror -pedantic -ffreestanding -mcpu="$1" -mthumb -Os -fstack-usage \
      -c "$source" -o "$built/${source%.c}.o"
  done
  arm-none-eabi-gcc -mcpu="$1" -mthumb -nostdlib -Wl,-e,0 -o "$built/all.elf" "$built"/*.o -lgcc
}

measure() { # measure CORE: one line
  compile "$1"
  code=$(arm-none-eabi-size -A "$built/all.elf" | awk '/^\.(text|rodata)/ { sum += $2 } END { print sum }')
  memory=$(arm-none-eabi-size "$built"/*.o | awk 'NR > 1 { sum += $2 + $3 } END { print sum }')
  stack=$(cat "$built"/*.su | grep -E ":($deepest)[[:space:]]" | awk '{ sum += $2 } END { print sum }')
  echo "$1: code $code, memory of its own $memory, stack $stack"
  arm-none-eabi-size "$built"/*.o | awk 'NR > 1 { sub(/.*\//, "", $6); printf "  %s %d\n", $6, $1 }'
}

arm-none-eabi-gcc --version | head -n 1
measure cortex-m0
measure cortex-m4
