//! English. The file a translator copies; [`Says`] tells what the signs mean.

use super::english_forms::FORMS;
use super::font;
use super::language::{Language, Refusals, Refused, Says};

/// The sentences in English.
pub const ENGLISH: Language = Language {
    font: &font::ASCII,
    weekdays: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
    months: ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"],
    stamp: "w d m t",

    secured: Says { title: "Secured", body: "Type your number and code, then OK." },
    secured_low: "Type number and code.|Battery low: change it soon.",
    secured_spent: "Battery spent: power it from outside.",
    secured_no_clock: "Clock not set: only some may open. Ask a steward.",
    secured_low_no_clock: "Type number and code.|Battery low.|Clock not set.",
    secured_spent_no_clock: "Battery spent: power it from outside.|Clock not set.",

    entry_nothing: Says { title: "Your number", body: "Type your number: two digits." },
    entry_tens: Says { title: "Your number", body: "One more digit, then your code." },
    entry_number: Says { title: "Your code", body: "Now type your code." },
    entry_code: Says { title: "Your code", body: "Then press OK.|Back: start over." },

    list: Says { title: "Press a number", body: "OK: more choices." },
    forms: FORMS,
    who_nothing: "Who are you? Type number and code, then OK.",
    who_typed: "Number and code, then press OK.|Back: start over.",

    too_short: Says {
        title: "Too short",
        body: "Not counted.|Type your number, the whole code, then OK.",
    },
    too_long: Says { title: "Too long", body: "Not counted.|Press OK, then type number and code." },
    wrong_code: Says { title: "Wrong code", body: "Type number and code again." },
    tries: "# tries left",
    one_try: "# try left",
    refusals: REFUSALS,
    penalty: Says { title: "No code is taken", body: "for # min|Wrong code too often. Try later." },

    released: Says { title: "Released", body: "Draw the bolt:|it blocks again in seconds." },
    released_low: "Draw the bolt.|Battery low: change it soon.",
    released_spent: "Draw the bolt.|Battery spent: change it.",
    open: Says { title: "Open", body: "When done, close the door and throw the bolt." },
    close_now: Says { title: "Open", body: "Close the safe now.|Opening time is over." },

    second_person: Says {
        title: "Second person",
        body: "# has typed.|Another holder: number and code now.",
    },
    waiting: Says { title: "Wait", body: "# min left|Then type number and code again." },
    claimable: Says { title: "Code again", body: "# min left|Type number and code to open." },
    hold_set: Says { title: "Held shut", body: "until @|Done. Nobody can undo it." },
    way_out: Says { title: "Nobody can open", body: "In # h the lock can be set up anew." },
    setting_up: Says { title: "Set it up", body: "Nobody can open yet.|Leave the bolt drawn." },

    status: "Status",
    uncollected: "# new records",
    charges: ["Battery: change soon", "Battery: half", "Battery: full"],
    supply_unknown: "Battery: wait",
    now: "@",
    now_unknown: "Clock not set",

    service: Says { title: "Call service", body: "No code is taken." },
    blank: "Not in use yet.|Draw bolt, switch on, press OK.",
    settings: "Settings lost.|Draw bolt, switch on, press OK.",
    layout: "Unknown settings.|Draw bolt, switch on, press OK.",
    store: "Its memory does not store.",
    drive: "The drive is stuck. Is it locked?",
    bug: "It lost track and stopped.",
};

const REFUSALS: Refusals = Refusals {
    already_open: Refused {
        title: "Not locked",
        body: "It is released or open already.|Draw the bolt.",
        until: None,
    },
    suspended: Refused {
        title: "Suspended",
        body: "Your number is suspended.|Ask a warden.",
        until: None,
    },
    barred: Refused {
        title: "Barred",
        body: "Too many wrong codes on your number.|Ask a warden.",
        until: None,
    },
    right: Refused {
        title: "Not allowed",
        body: "Your number may not do this.|Ask a warden or steward.",
        until: None,
    },
    inhibit: Refused {
        title: "Blocked",
        body: "Intruder alarm is set, or its line broken. Unset it first.",
        until: None,
    },
    held_shut: Refused {
        title: "Held shut",
        body: "Its end is not known: clock not set.|Ask a steward.",
        until: Some("until @|Nobody can open before."),
    },
    supply: Refused {
        title: "Battery spent",
        body: "It opens nothing. Power it from outside.",
        until: None,
    },
    clock: Refused {
        title: "Clock not set",
        body: "Your times cannot be checked.|Ask a steward.",
        until: None,
    },
    closed: Refused {
        title: "Closed",
        body: "You have no opening time in the weeks ahead.|Ask a warden.",
        until: Some("Opens @|Then type your code again."),
    },
    late: Refused {
        title: "Too late",
        body: "The wait would outlast your opening time. Come earlier.",
        until: None,
    },
    waiting: Refused {
        title: "Already waiting",
        body: "A wait is running. Come back when it ends.",
        until: None,
    },
    other_person: Refused {
        title: "Someone else",
        body: "Who began the wait must type number and code.",
        until: None,
    },
    same_person: Refused {
        title: "Same person",
        body: "Another holder must type number and code.",
        until: None,
    },
    penalty: Refused {
        title: "No code is taken",
        body: "Wrong code too often. Try later.",
        until: None,
    },
    hold: Refused {
        title: "Not held shut",
        body: "No opening within 31 days, or clock not set: ask a warden.",
        until: None,
    },
    settling: Refused {
        title: "Clock was set",
        body: "Timetables open again in some hours.",
        until: Some("Timetables open again @"),
    },
    first_refused: Refused {
        title: "Begin again",
        body: "The first person may not open now. Both type anew.",
        until: None,
    },
};
