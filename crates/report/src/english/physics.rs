//! Wording of what signal, power return and short circuit find.

use super::Words;

const fn words(code: &'static str, message: &'static str, label: &'static str, hint: &'static str) -> Words {
    Words { code, message, label, hint }
}

/// The wordings, by code.
pub const WORDS: &[Words] = &[
    words(
        "signal-too-weak",
        "{element} hears {caller} with a loss of {value} at {frequency}; the {band} of its family bears {limit}",
        "<on run {run}>",
        "fewer boxes and branches on the way, a shorter way, or a cable with less loss",
    ),
    words(
        "signal-notch",
        "{element} has a notch of {value} at {frequency} in the {band} from {caller}; its family bears {limit}",
        "<as an open branch of about {branch} makes>",
        "wire the branch as part of the chain, shorten it, or close its end with a terminator",
    ),
    words(
        "signal-ripple",
        "the {band} from {caller} varies by {value} at {element}; its family bears {limit}",
        "",
        "a terminator on every open end, or a shorter or better cable",
    ),
    words("line-constants-missing", "{element} is of a cable without line constants", "", ""),
    words(
        "supply-shorts-signal",
        "the {count:feed|feeds} of {feeds} short the signal<: below {value}, where it begins at {limit}>",
        "",
        "feed through a choke, or separate the parts by isolating boxes",
    ),
    words(
        "start-up-fails",
        "{element} does not start: {down} of {of} devices stay down {state}<, {first_down} among them><; {limited_by} at its limit>",
        "<booting at once takes {boot}><, it gives {source_limit}>",
        "<starting run after run {stagger} apart lets it start; ><a supply that gives {larger_limit} lets it start; >a larger supply, or several",
    ),
    words(
        "start-up-hiccups",
        "{element} starts and drops out again and again {state}<, every {period}>: {down} of {of} devices are down",
        "<booting at once takes {boot}><, it gives {source_limit}>",
        "<starting run after run {stagger} apart lets it start; ><a supply that gives {larger_limit} lets it start; >a larger supply, one that holds its current, or several",
    ),
    words(
        "start-up-dip",
        "{element} has come up and then dips to {value} while others boot; it needs {limit}",
        "<on {source}>",
        "thicker conductors, fewer stations on the run, or delays that differ from run to run",
    ),
    words(
        "short-circuit-not-detected",
        "a short at the end of run {element} draws {current} and nothing acts<; a trip needs {limit}>",
        "<the conductors come to {temperature}>",
        "ports with a limit of their own, or a supply that trips earlier",
    ),
    words(
        "short-circuit-not-cleared",
        "a short at the end of run {element} goes on at {current}, which heats {cable} to {value}; it stands {limit}",
        "<{by} only limits it>",
        "ports with a limit of their own, a supply that trips, or thicker conductors",
    ),
    words(
        "short-circuit-darkens",
        "a short on run {run} of {element} takes {count:other dwelling|other dwellings} with it: {dwellings}",
        "<{by} {acts}>",
        "ports with a limit of their own, towards what is most exposed first",
    ),
    words(
        "trip-below-legitimate-current",
        "{element} {acts} at {limit}, and {value} may flow in use",
        "<model {model}>",
        "fewer stations on it, or a model that trips later",
    ),
];
