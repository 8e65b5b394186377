//! `ask old-cable`: whether the cable that is in the walls can stay.

use crate::row::{sentences, words};
use latchline_finding::Figure;

words! {
    /// Heads of the rows, and the answer of one.
    pub enum OldCableHead {
        Run: "Run" | "Strang",
        Stays: "Stays" | "Bleibt",
        Cable: "Cable" | "Leitung",
        Loop: "Loop, ohm" | "Schleife, Ohm",
        Measured: "read" | "gem.",
        Expected: "due" | "soll",
        Insulation: "Insulation" | "Isolation",
        Margin: "V spare" | "V Reserve",
        Signal: "Signal, dB" | "Signal, dB",
        Yes: "yes" | "ja",
        Warning: "yes, warning" | "ja, Warnung",
        LookFirst: "look first" | "erst klären",
        MeasureFirst: "measure first" | "erst messen",
        No: "no" | "nein",
        NotJudged: "not judged" | "nicht beurteilt",
        NotMeasured: "not read" | "fehlt",
    }
}

sentences! {
    /// What is answered. The first sentence is the one to say.
    pub enum OldCableWords<'a> {
        NoneMarked:
            "That cannot be said: no run of this site file is marked as old cable. Write existing = true in the row of each such run under [runs], and under measured what was read: loop and insulation."
            | "Das lässt sich nicht sagen: In dieser Anlagendatei ist kein Strang als alte Leitung gekennzeichnet. Bei jedem solchen Strang unter [runs] existing = true eintragen und unter measured, was gemessen wurde: loop (Schleife) und insulation (Isolation).",
        Yes { runs: &'a str }:
            "Yes, the old cable can stay ({runs}): loop and insulation were measured and fit, and cross-section, voltage and signal are enough for this site."
            | "Ja, die alte Leitung kann bleiben ({runs}): Schleife und Isolation sind gemessen und passen, und Querschnitt, Spannung und Signal genügen für diese Anlage.",
        YesWarned { runs: &'a str, message: &'a str }:
            "Yes, the old cable can stay ({runs}), with a warning: {message}."
            | "Ja, die alte Leitung kann bleiben ({runs}), mit einer Warnung: {message}.",
        LookFirst { runs: &'a str, message: &'a str, stay: Option<&'a str>, open: Option<&'a str> }:
            "Not before this is looked into, on {runs}: {message}. Look for a bad joint, another cable behind it or a wrong length, and measure again<. It can stay on {stay}><. It cannot be said yet of {open}>."
            | "Erst, wenn das geklärt ist, bei {runs}: {message}. Eine schlechte Verbindung, eine andere Leitung dahinter oder eine falsche Länge suchen und neu messen<. Bleiben kann sie bei {stay}><. Noch nicht zu sagen ist es bei {open}>.",
        No { runs: &'a str, message: &'a str, stay: Option<&'a str>, open: Option<&'a str> }:
            "No, the old cable cannot stay as it is on {runs}: {message}<. It can stay on {stay}><. It cannot be said yet of {open}>."
            | "Nein, die alte Leitung kann so nicht bleiben bei {runs}: {message}<. Sie kann bleiben bei {stay}><. Noch nicht zu sagen ist es bei {open}>.",
        MeasureFirst { runs: &'a str, stay: Option<&'a str>, open: Option<&'a str> }:
            "Measure first: loop and insulation of {runs} are not both known. If they are as assumed, the cable can stay<. It can stay on {stay}><. Not judged on {open}>."
            | "Zuerst messen: Schleife und Isolation von {runs} sind nicht beide bekannt. Sind sie wie angenommen, kann die Leitung bleiben<. Bleiben kann sie bei {stay}><. Nicht beurteilt ist {open}>.",
        NotJudged { runs: &'a str, titles: &'a str, stay: Option<&'a str> }:
            "That cannot be said of {runs}: not all of it could be judged ({titles})<. It can stay on {stay}>."
            | "Bei {runs} lässt sich das nicht sagen: Nicht alles war zu beurteilen ({titles})<. Bleiben kann sie bei {stay}>.",
        LengthUnknown { runs: &'a str, stay: Option<&'a str> }:
            "That cannot be said of {runs}: its length is worked out from its own loop, so a bad joint would not show. Walk the way and state the length<. It can stay on {stay}>."
            | "Bei {runs} lässt sich das nicht sagen: Die Länge folgt aus der eigenen Schleife, eine schlechte Verbindung fiele nicht auf. Den Weg abgehen und die Länge angeben<. Bleiben kann sie bei {stay}>.",
        Collapses { sources: &'a str, causes: &'a str }:
            "First the bus: all of {sources} collapses, because {causes} cannot carry the load. As if that were mended:"
            | "Zuerst der Bus: {sources} bricht als Ganzes zusammen, weil die Last für {causes} zu groß ist. Als wäre das behoben:",
        ShortApart { device: &'a str, voltage: Figure, limit: Figure }:
            "{device} has only {voltage} even then and needs {limit}"
            | "{device} hat auch dann nur {voltage} und braucht {limit}",
        Against { run: &'a str, messages: &'a str, more: Option<usize> }:
            "{run}: {messages}<; and {more} more>."
            | "{run}: {messages}<; und {more} weitere>.",
        NotMeasured { loops: Option<&'a str>, insulations: Option<&'a str> }:
            "<Loop not measured on {loops}. ><Insulation not measured on {insulations}. >Measure with everything taken off: the loop with the far end bridged, the insulation between the legs and of each to earth."
            | "<Schleife nicht gemessen bei {loops}. ><Isolation nicht gemessen bei {insulations}. >Messen, wenn alles abgeklemmt ist: die Schleife bei gebrücktem fernem Ende, die Isolation zwischen den Adern und jeder gegen Erde.",
        OtherErrors { errors: usize }:
            "The site has {errors:error that does|errors that do} not concern old cable: latchline check"
            | "Die Anlage hat {errors:Fehler, der keine alte Leitung betrifft|Fehler, die keine alte Leitung betreffen}: latchline check",
        Key:
            "Loop: what was read, and what is due by the cable stated. V spare: the least at a device behind it. Signal: the weakest through it, of what is allowed."
            | "Schleife: was gemessen wurde, und was die angegebene Leitung haben soll. V Reserve: die kleinste an einem Gerät dahinter. Signal: das schwächste darüber, von dem, was erlaubt ist.",
    }
}
