//! Wording of what the rules find about locks, ways out, batteries and supplies' surroundings.

use super::Words;

const fn words(code: &'static str, message: &'static str, label: &'static str, hint: &'static str) -> Words {
    Words { code, message, label, hint }
}

/// The wordings, by code.
pub const WORDS: &[Words] = &[
    // Locks.
    words(
        "lock-voltage-too-low",
        "the lock {lock} of {element} gets {value} and needs {limit}",
        "<{current} over {loop}>",
        "<thicker conductors of at most {most_loop} in all, or >a supply of {needed_supply}",
    ),
    words(
        "lock-voltage-too-high",
        "the lock {lock} of {element} gets up to {value} and stands {limit}",
        "",
        "take a lock for that voltage, or feed it from a lower one",
    ),
    words(
        "lock-current-kind",
        "the lock {lock} of {element} needs {needs} and gets {gets}",
        "",
        "take another lock, or another feed",
    ),
    words(
        "lock-contact-wiring",
        "the lock {lock} of {element} {kind}, so its relay contact must be {required}, not {stated}",
        "wired {stated}",
        "<write contact for {required}, and wire it so>",
    ),
    words(
        "lock-duty-exceeded",
        "the lock {lock} of {element} is energised {when}<, {value},> and bears {duty_limit}",
        "",
        "shorten the hold time, or take a lock for continuous duty",
    ),
    words("lock-feed-missing", "the lock {lock} of {element} has no feed: {missing}", "<feed is {feed}>", ""),
    words(
        "lock-output-overloaded",
        "the lock {lock} of {element} draws {value}; the output of {station} gives {limit}",
        "<its {which}>",
        "feed it from a supply of its own, through the relay",
    ),
    words(
        "lock-outputs-exceeded",
        "{element} has {value} locks; {station} has {limit} outputs",
        "",
        "take a model with more outputs, or leave a lock to another entrance",
    ),
    words(
        "relay-overloaded",
        "the lock {lock} of {element} draws {value}; the relay contact of {station} carries {limit}",
        "<its {which}>",
        "put a relay of its own in between",
    ),
    words(
        "relay-on-unsecure-side",
        "the relay of the lock {lock} of {element} can be reached from outside",
        "",
        "put a relay inside the door",
    ),
    words(
        "hold-time-overridden",
        "{station} holds the lock {lock} of {element} for {value}, not for the stated {limit}",
        "",
        "set the release time on the door station, or correct the file",
    ),
    words(
        "suppression-missing",
        "nothing kills the voltage spike of the lock {lock} of {element}",
        "",
        "fit {suitable} across the coil<; a diode lets it go {diode_delay} later>",
    ),
    words(
        "suppression-unsuitable",
        "the lock {lock} of {element} has a diode across it on alternating current",
        "a short circuit every half wave",
        "take a varistor",
    ),
    // Lights, heater, alarm inputs.
    words(
        "light-feed-missing",
        "the light {light} of {element} has no feed: {station} has no output for lights",
        "",
        "give it a supply of its own (feed = \"own-supply\"), or take a door station with an output for lights",
    ),
    words(
        "light-feed-unsuitable",
        "the light {light} of {element} is made for {limit}<, {needs},> and gets {value}",
        "",
        "take a light for that voltage, or another feed",
    ),
    words(
        "light-output-overloaded",
        "the {lights:light|lights} of {element} draw {value}; the light output of {station} gives {limit}",
        "",
        "feed them from a supply of their own",
    ),
    words(
        "heater-missing",
        "{element} counts on a heater; {station} states none",
        "",
        "take a model with a heater, or state its heater_extra",
    ),
    words(
        "alarm-inputs-exceeded",
        "{element} has {value} alarm inputs; {station} has {limit}",
        "the first beyond",
        "take a model with more inputs",
    ),
    words(
        "alarm-loop-too-long",
        "the loop of the {kind} input of {element} has {value}; {station} reads up to {limit}",
        "",
        "thicker conductors, or a shorter way",
    ),
    words(
        "alarm-cable-not-watched",
        "nobody notices when the cable of the {kind} input of {element} is cut: its contact is normally open",
        "",
        "wire the normally closed side, or fit a resistor at the contact",
    ),
    words(
        "alarm-tells-nobody",
        "the {kind} input of {element} tells nobody",
        "",
        "<add tells for input {number}: >the management station, or dwellings",
    ),
    // Ways out.
    words(
        "fire-release-through-station",
        "the fire alarm releases {locks} of {element} through the door station only",
        "",
        "have the fire alarm open a contact in the lock's own supply; the responsible person decides",
    ),
    words(
        "escape-depends-on-bus",
        "the way out at {element} depends on the bus: nothing else opens the lock {lock}",
        "",
        "a handle or bar that opens without power, or an exit button in the lock's own circuit",
    ),
    words(
        "escape-fail-secure",
        "the lock {lock} of {element}, on an escape route, stays shut without power",
        "",
        "take a lock that opens without power, or one with a mechanical way out; the responsible person decides",
    ),
    words(
        "exit-button-missing",
        "{element} cannot be opened from inside: its lock {lock} has no exit button and no mechanical way out",
        "",
        "fit an exit button inside (exit_button = true), or a handle or bar that opens without power (mechanical_escape = true)",
    ),
    words(
        "fire-interlock-missing",
        "the fire alarm does not release the lock {lock} of {element}<, {role}>",
        "",
        "have the fire alarm cut its power; the responsible person decides",
    ),
    words(
        "fire-interlock-without-effect",
        "the fire interlock of {element} releases none of its locks: {locks}",
        "",
        "wire it so that it cuts the power of a lock that opens without",
    ),
    words(
        "delayed-egress-too-long",
        "the lock {lock} of {element} delays the way out by {value}<; at most {limit} is allowed>",
        "",
        "<{source}: >the local code and the responsible person decide",
    ),
    words("escape-advice", "locks on escape routes at {doors}: look at {sources}", "", "<{rules}>"),
    words(
        "country-without-rules",
        "no rules are known here for the country \"{country}\"",
        "",
        "write it as two letters (\"GB\"); if it is right, look up its own rules<; heights are held against {source}>",
    ),
    words(
        "control-height",
        "the controls of {element} are {value} above the ground; within reach of all are {least} to {most}",
        "",
        "<{source}>",
    ),
    // Battery and surroundings.
    words(
        "battery-hours-short",
        "the battery of {element} lasts {value}; the policy asks for {limit}",
        "<{effective} left of {capacity}, {current} drawn>",
        "take a larger battery, or reduce what is on in standby",
    ),
    words(
        "battery-end-voltage-low",
        "{count:device goes|devices go} dark before the battery of {element} is empty, {worst} first: {value}, needs {limit}",
        "",
        "thicker conductors, or fewer stations on their runs",
    ),
    words(
        "charger-too-small",
        "the charger of {element} gives {value}; to charge the battery within a day takes {limit}",
        "<{hours} for {capacity}>",
        "",
    ),
    words(
        "supply-too-hot",
        "the cupboard of {element} is at {value}; {model} bears {limit} there",
        "<it gives off {heat} itself>",
        "<at that temperature it gives {derated} where {load} are asked for: >let air through, move it to a cooler place, or take one with more in hand",
    ),
];
