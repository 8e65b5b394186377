//! Wording of what the rules find.

use super::Words;

const fn words(code: &'static str, message: &'static str, label: &'static str, hint: &'static str) -> Words {
    Words { code, message, label, hint }
}

/// The wordings, by code.
pub const WORDS: &[Words] = &[
    // Voltages and currents.
    words(
        "voltage-too-low",
        "{element} has {value} and needs {limit}, {state}",
        "<on run {run}>",
        "thicker conductors, a shorter way, fewer stations on the run, or a supply nearer by",
    ),
    words(
        "voltage-too-high",
        "{element} gets up to {value} and stands {limit}, {state}",
        "<on {source}>",
        "set the supply lower, or take a model that stands more",
    ),
    words(
        "thin-margin",
        "{element} has only {value} in hand above the {least} that it needs, {state}",
        "<less than {limit}>",
        "",
    ),
    words(
        "no-operating-point",
        "the bus of {element} collapses {state}: no voltages satisfy the circuit<; down go {devices}>",
        "more load than the cable can carry",
        "thicker conductors, a shorter way, more ports, or a supply nearer by",
    ),
    words(
        "supply-overloaded",
        "{element} must give {value} but is rated for {limit}, {state}",
        "<model {model}>",
        "take a larger supply, or a second one with its own part of the building",
    ),
    words(
        "port-overloaded",
        "port {element} must give {value} but gives at most {limit}, {state}",
        "<{stations:station|stations} beyond>",
        "move stations to a free port or another distributor",
    ),
    words(
        "supply-count-exceeded",
        "{element} carries more stations than its datasheet allows: {models}; together {value} of what is full at {limit}",
        "",
        "share the stations out over another supply, or take a lighter model",
    ),
    words(
        "bus-voltage-above-selv",
        "{element} has {value}, more than the {limit} that is safe to touch in the dry",
        "<model {model}>",
        "",
    ),
    words(
        "bus-voltage-wet",
        "{element} is outdoors on {value}; wet, only {limit} is safe to touch",
        "<fed from {source}>",
        "keep bare terminals out of reach behind a cover that needs a tool",
    ),
    // Counts and lengths of the family.
    words(
        "cascade-too-deep",
        "{element} is number {value} in a cascade of distributors; the family {family} allows {limit}",
        "",
        "",
    ),
    words(
        "too-many-door-stations",
        "the site has {value} door stations; the family {family} allows {limit}",
        "<the first beyond>",
        "",
    ),
    words(
        "too-many-stations-in-dwelling",
        "{element} has {value} stations; the family {family} allows {limit}",
        "",
        "",
    ),
    words(
        "too-many-stations-on-port",
        "port {element} has {value} stations on it; the family {family} allows {limit}",
        "<start of run {run}>",
        "move stations to another port",
    ),
    words(
        "total-length-exceeded",
        "port {element} has {value} of cable on it; the family {family} allows {limit}",
        "<start of run {run}>",
        "move a branch to another port",
    ),
    words(
        "run-too-long",
        "the way from {from} to {to} is {value} long; the family {family} allows {limit}",
        "",
        "place a distributor nearer by, or take a shorter way",
    ),
    words(
        "branch-not-allowed",
        "{element} is a branch into runs {runs}; chains of the family {family} may not divide",
        "divides here",
        "use a branch box or another port",
    ),
    words(
        "chain-not-allowed",
        "run {element} chains {stations}; the family {family} is wired as a star",
        "",
        "give every station its own port",
    ),
    words(
        "end-station-looped",
        "the cable goes on from {element} to {next}, but {model} has one pair of terminals",
        "no second pair of terminals",
        "put it at the end of the run, or take a model that loops through",
    ),
    words(
        "mixed-families",
        "{element} is of the family {family} on a bus of {expected}",
        "<model {model}>",
        "keep every bus to one family",
    ),
    words(
        "bus-of-another-family",
        "the bus of {element} is of the family {family}, not of the site's {expected}",
        "<{devices:device|devices} on it>",
        "",
    ),
    // Terminators.
    words(
        "terminator-missing",
        "{station}, the last on run {element}, has no terminator; the family {family} needs one",
        "",
        "<set the terminator on {station} and write terminator = true>",
    ),
    words(
        "terminator-doubled",
        "the chain on port {port} has more than one terminator: on runs {runs}",
        "",
        "leave one, on the last station",
    ),
    words(
        "terminator-misplaced",
        "the terminator of run {element} is set at {stop}, where the chain does not end",
        "",
        "set it on the last station",
    ),
    words(
        "terminator-not-needed",
        "run {element} has a terminator; the family {family} needs none",
        "",
        "remove it",
    ),
    words(
        "terminator-without-capacitor",
        "the terminator of run {element} has no series capacitor: {voltage} on {resistance} heats it with {value}",
        "",
        "take a terminator with a series capacitor",
    ),
    // Wiring and cable.
    words(
        "cable-unsuitable",
        "run {element} goes {environment}; {cable} is made for {allowed}",
        "",
        "take a cable that is made for it",
    ),
    words(
        "beside-mains",
        "run {element} lies beside mains without separation",
        "<{cable} is not insulated for mains>",
        "keep it apart from mains, or take a cable insulated for mains voltage",
    ),
    words(
        "clad-aluminium",
        "{cable} is {material}, on {elements}",
        "",
        "the figures count it; terminals need care",
    ),
    words(
        "more-pairs-than-cable",
        "run {element} uses {value} pairs in parallel; {cable} has {limit}",
        "",
        "",
    ),
    words(
        "outdoor-run-without-surge-protection",
        "run {element} goes {value} outdoors without surge protection",
        "",
        "fit surge protectors where it enters a building; they add resistance, which surge_protection states",
    ),
    words(
        "existing-run-not-measured",
        "run {element} is an existing cable whose {missing} was not measured",
        "",
        "measure with the electronics disconnected, and write measured = { ... }",
    ),
    words(
        "insulation-too-low",
        "the insulation of run {element} is {value}, less than {limit}",
        "",
        "look for damp joints and bared conductors, with the electronics disconnected",
    ),
    words(
        "measured-loop-differs",
        "the loop of run {element} measures {value}, where {length} of {cable} have {expected}",
        "<{excess} of difference>",
        "<it may be: {candidates:or}>",
    ),
    words(
        "measured-capacitance-differs",
        "run {element} measures {capacitance}, as {value} of {cable} would; stated are {length}",
        "<{direction} than stated>",
        "<it may be: {candidates:or}>",
    ),
    words(
        "chain-through-dwellings",
        "run {element} passes through other people's dwellings: {dwellings}",
        "",
        "a fault there cannot be reached; branch on the landing instead",
    ),
    words(
        "silenced-group",
        "one broken joint on run {element} silences {value} dwellings; the policy is at most {limit}",
        "<all beyond {first_stop}>",
        "<taking out station {removed_station} alone silences {removal_silences:dwelling|dwellings}; >shorter chains on more ports",
    ),
    words(
        "supply-without-load",
        "supply {element} feeds nothing",
        "no run starts here",
        "wire it, or remove it",
    ),
    words(
        "link-not-wired",
        "the signal link of the isolating box {element} is open",
        "",
        "add a run to {element}.link, or its stations hear only door stations on the box itself",
    ),
    words("box-without-runs", "box {element} feeds nothing", "<model {model}>", "wire it, or remove it"),
    words(
        "no-spare-ports",
        "box {element} has {value} of its {ports:port|ports} free; the policy asks for {limit}",
        "<model {model}>",
        "",
    ),
    // Who can call whom.
    words("no-entrance", "the site has no entrance for its {dwellings:dwelling|dwellings}", "", ""),
    words(
        "dwelling-without-entrance",
        "no entrance calls {element}",
        "",
        "add it, or its floor or building, to the \"calls\" of an entrance",
    ),
    words("entrance-calls-nobody", "entrance {element} can call nobody", "", "add \"calls\""),
    words(
        "entrance-without-lock",
        "entrance {element} has no lock",
        "",
        "add \"lock\", or accept that it opens by hand",
    ),
    words(
        "call-across-buses",
        "{element} cannot reach those whom it calls: {called}",
        "no wire leads there",
        "join the buses by a signal link, or correct \"calls\"",
    ),
    words(
        "directory-too-small",
        "{element} should call {value} dwellings; {model} can call {limit}",
        "",
        "<{buttons} of them by button; >add button modules, or take a model with a larger directory",
    ),
    words("accessory-chain-too-long", "{element} has {value} modules; {model} takes {limit}", "", ""),
    words(
        "accessory-current-exceeded",
        "the {modules:module|modules} of {element} draw {value}; {model} gives {limit}",
        "",
        "",
    ),
    // Acceptance.
    words(
        "acceptance-without-match",
        "nothing is found that this acceptance of {code}<, {element},> matches",
        "matches nothing",
        "remove it, or correct its code or element",
    ),
];
