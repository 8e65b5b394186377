//! `ask` and the sentence of `reach --total`: answers to say on the telephone.

use crate::row::{sentences, words};

words! {
    /// Where the power comes from, and heads.
    pub enum AskHead {
        OnMains: "on mains" | "am Netz",
        ToBatteryEnd: "to the battery's end" | "bis zum Ende der Batterie",
        Cable: "Cable" | "Leitung",
        AtTheLock: "at the lock" | "am Schloss",
        Reaches: "reaches" | "reicht",
    }
}

sentences! {
    /// What is answered. The first sentence is the one to say.
    pub enum AskWords<'a> {
        // How many on one run.
        HowMany { stations: usize, model: &'a str, total: &'a str, cable: &'a str, power: &'a str, supply: &'a str, calls: usize }:
            "{stations} {model} work on {total} m of {cable} {power}, from {supply} with {calls:call|calls} at once."
            | "{stations} {model} arbeiten an {total} m {cable} {power}, gespeist von {supply}, mit {calls:Ruf|Rufen} gleichzeitig.",
        NotOne { model: &'a str, total: &'a str, cable: &'a str, power: &'a str, supply: &'a str, calls: usize }:
            "Not even one {model} works on {total} m of {cable} {power}, from {supply} with {calls:call|calls} at once."
            | "Nicht einmal ein {model} arbeitet an {total} m {cable} {power}, gespeist von {supply}, mit {calls:Ruf|Rufen} gleichzeitig.",
        Other { power: &'a str, supply: &'a str, stations: usize }:
            "{power}, from {supply}: {stations}."
            | "{power}, gespeist von {supply}: {stations}.",
        OneMore { power: &'a str, title: &'a str }:
            "One more {power}: {title}."
            | "Eine mehr {power}: {title}.",
        NoMore { most: usize }: "More than {most} were not asked for." | "Nach mehr als {most} wurde nicht gefragt.",
        Margin { margin: &'a str }:
            "The tightest has {margin} V in hand in its worst state."
            | "Die knappste hat im ungünstigsten Zustand {margin} V Reserve.",
        Under { distributor: &'a str }:
            "Stations evenly along one run from a port of {distributor}, 1 m of feed; checked as a whole site is, signal and start-up included, every tolerance against it."
            | "Stationen gleichmäßig an einem Strang von einem Abgang von {distributor}, 1 m Zuleitung; geprüft wie eine ganze Anlage, mit Signal und Anlauf, jede Toleranz dagegen.",
        // A lock's cable.
        LockNeeds { lock: &'a str, length: &'a str, cable: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} m: take {cable} or thicker; it then has {voltage} V and needs {needs} V."
            | "{lock} über {length} m: {cable} oder dicker nehmen; es hat dann {voltage} V und braucht {needs} V.",
        LockHolds { lock: &'a str, length: &'a str, cable: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} m of {cable} works: it has {voltage} V and needs {needs} V."
            | "{lock} über {length} m {cable} arbeitet: Es hat {voltage} V und braucht {needs} V.",
        LockFails { lock: &'a str, length: &'a str, cable: &'a str, voltage: &'a str, needs: &'a str }:
            "{lock} over {length} m of {cable} does not work: it has {voltage} V and needs {needs} V."
            | "{lock} über {length} m {cable} arbeitet nicht: Es hat {voltage} V und braucht {needs} V.",
        LockTooFar { lock: &'a str, length: &'a str, cable: &'a str, longest: &'a str }:
            "No cable of the catalogue feeds {lock} over {length} m from the door station; {cable} reaches {longest} m. Feed it from a supply of its own at the door."
            | "Keine Leitung des Katalogs speist {lock} über {length} m aus der Türstation; {cable} reicht {longest} m. Aus einem eigenen Netzteil an der Tür speisen.",
        LockNotJudged { lock: &'a str }:
            "{lock} cannot be fed from the door station, or a figure of it is missing: latchline catalogue {lock} shows what is known."
            | "{lock} kann nicht aus der Türstation gespeist werden, oder eine Angabe fehlt: latchline catalogue {lock} zeigt, was bekannt ist.",
        LockReach { longest: &'a str }: "{longest} m" | same,
        LockUnder { door: &'a str, supply: &'a str }:
            "Fed by {door} on mains, behind {supply}; both conductors, joints, 40 °C and every tolerance against it."
            | "Gespeist von {door} am Netz, hinter {supply}; beide Adern, Klemmstellen, 40 °C und jede Toleranz dagegen.",
        // A battery.
        Hours { stations: usize, model: &'a str, door: &'a str, hours: &'a str, supply: &'a str, batteries: usize, capacity: &'a str }:
            "{stations} {model} and one {door} run {hours} h in standby on the battery of {supply} ({batteries:battery|batteries}, {capacity} Ah in all)."
            | "{stations} {model} und ein {door} laufen in Ruhe {hours} h aus der Batterie von {supply} ({batteries:Batterie|Batterien}, zusammen {capacity} Ah).",
        HoursEnough { wanted: &'a str }: "That is enough for {wanted} h." | "Das reicht für {wanted} h.",
        HoursShort { wanted: &'a str }:
            "That is not enough for {wanted} h, and no more batteries are asked for: split the site, or take a larger supply."
            | "Das reicht nicht für {wanted} h, und nach mehr Batterien wird nicht gefragt: die Anlage teilen oder ein größeres Netzteil nehmen.",
        HoursUnder { current: &'a str, ambient: &'a str }:
            "It draws {current} A from the battery, aged to four fifths, at {ambient} °C. Calls shorten it; check a real site with `standby_hours`."
            | "Es zieht {current} A aus der Batterie, gealtert auf vier Fünftel, bei {ambient} °C. Rufe verkürzen das; eine wirkliche Anlage mit `standby_hours` prüfen.",
        NoBattery { supply: &'a str }:
            "{supply} has no battery, or a figure of it is missing."
            | "{supply} hat keine Batterie, oder eine Angabe fehlt.",
        // A mix.
        MixWorks { mix: &'a str, power: &'a str, supply: &'a str, calls: usize }:
            "{mix} work {power} on one {supply} with {calls:call|calls} at once."
            | "{mix} arbeiten {power} an einem {supply} mit {calls:Ruf|Rufen} gleichzeitig.",
        MixFails { mix: &'a str, power: &'a str, supply: &'a str, calls: usize, title: &'a str }:
            "{mix} do not work {power} on one {supply} with {calls:call|calls} at once: {title}."
            | "{mix} arbeiten {power} nicht an einem {supply} mit {calls:Ruf|Rufen} gleichzeitig: {title}.",
        MixFigures { supply: &'a str, shares: Option<&'a str>, current: Option<&'a str>, rated: Option<&'a str> }:
            "{supply}:< shares of the data sheet's counts {shares} of 1 (a convention)><; largest current {current} A>< of {rated} A>."
            | "{supply}:< Anteile der Stückzahlen des Datenblatts {shares} von 1 (Vereinbarung)><; größter Strom {current} A>< von {rated} A>.",
        MixUnder:
            "On short runs of thick cable, checked as a whole site is; what the cable takes comes on top."
            | "An kurzen Strängen aus dicker Leitung, geprüft wie eine ganze Anlage; was die Leitung nimmt, kommt hinzu.",
        // Switches.
        Switches { family: &'a str, numbers: &'a str, settings: &'a str }:
            "An indoor station of {family} that is {numbers}: {settings}."
            | "Eine Innenstation von {family} mit {numbers}: {settings}.",
        OutOfRange { field: &'a str, number: usize, low: usize, high: usize }:
            "{field} {number} cannot be set: its switches go from {low} to {high}."
            | "{field} {number} lässt sich nicht einstellen: Die Schalter gehen von {low} bis {high}.",
        Caution:
            "A calculation, not a certificate; check the real site with: latchline check"
            | "Eine Berechnung, kein Nachweis; die wirkliche Anlage prüfen mit: latchline check",
    }
}
