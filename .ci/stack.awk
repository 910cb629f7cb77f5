# The deepest stack below a function, from a disassembly (objdump -dC
# --no-show-raw-insn): what each function pushes and takes from the stack pointer,
# added up along the calls. -v root=NAME: the name of a function.
# Prints the bytes and the way down. Calls through a pointer are not followed.
# With -v each=1 instead: the address of each function, in hexadecimal, and its bytes.

/^[0-9a-f]+ <.*>:$/ {
    address = $1
    sub(/^0+/, "", address)
    if (address == "") address = "0"
    name[address] = substr($0, index($0, "<") + 1)
    sub(/>:$/, "", name[address])
    frame[address] += 0
    next
}
address == "" { next }
/\t(push|stmdb|vpush)/ && /\{/ {
    if ($0 ~ /\tstmdb/ && $0 !~ /sp!/) next
    list = $0
    sub(/.*\{/, "", list)
    sub(/\}.*/, "", list)
    n = split(list, registers, /, */)
    for (i = 1; i <= n; i++) frame[address] += 4 * span(registers[i])
    next
}
/\tstr[.a-z]*\t[a-z0-9]+, \[sp, #-[0-9]+\]!/ {
    word = $0
    sub(/.*#-/, "", word)
    frame[address] += word + 0
    next
}
/\tsub[.a-z]*\tsp, (sp, )?#[0-9]+/ {
    word = $0
    sub(/.*#/, "", word)
    frame[address] += word + 0
    next
}
/\tb[a-z.]*\t[0-9a-f]+ </ {
    to = $0
    sub(/.*\tb[a-z.]*\t/, "", to)
    sub(/ .*/, "", to)
    if (to != address) calls[address] = calls[address] " " to
}

function number(register) {
    if (register == "sb") return 9
    if (register == "sl") return 10
    if (register == "fp") return 11
    if (register == "ip") return 12
    if (register == "lr") return 14
    return substr(register, 2) + 0
}
# Registers of r4, or of r4-r7.
function span(registers,   ends) {
    if (split(registers, ends, "-") < 2) return 1
    return number(ends[2]) - number(ends[1]) + 1
}
function depth(at,   list, n, i, below, most, way) {
    if (at in deepest) return deepest[at]
    if (at in open) return 0
    open[at] = 1
    n = split(calls[at], list, " ")
    most = 0
    way = ""
    for (i = 1; i <= n; i++) {
        if (!(list[i] in name)) continue
        below = depth(list[i])
        if (below > most) {
            most = below
            way = list[i]
        }
    }
    delete open[at]
    next_one[at] = way
    deepest[at] = most + frame[at]
    return deepest[at]
}

END {
    if (each) {
        for (at in name) print at, frame[at]
        exit 0
    }
    for (at in name) {
        # A generic one has its types behind its name, as some compilers have it.
        if (name[at] != root && index(name[at], root "::<") != 1) continue
        if (depth(at) >= depth(found)) found = at
    }
    if (found == "") exit 1
    print depth(found)
    for (step = found; step != ""; step = next_one[step]) print "  " frame[step], name[step]
}
