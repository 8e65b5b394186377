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
        NotOutdoors: " (not made for outdoors)" | " (nicht für außen gemacht)",
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
        HeaviestTaken { model: &'a str, lightest: &'a str, stations: usize, power: &'a str }:
            "No model was named, so {model}, the heaviest, was taken; of {lightest}, the lightest, {stations} work {power}. Name it with --station."
            | "Kein Modell war genannt, also wurde {model} genommen, das schwerste; von {lightest}, dem leichtesten, arbeiten {stations} {power}. Mit --station nennen.",
        Margin { stations: usize, power: &'a str, margin: &'a str }:
            "With {stations} {power} the tightest has {margin} V in hand in its worst state."
            | "Bei {stations} {power} hat die knappste im ungünstigsten Zustand {margin} V Reserve.",
        MarginThin { stations: usize, power: &'a str, margin: &'a str }:
            "With {stations} {power} the tightest has {margin} V in hand in its worst state, which check warns of as thin-margin: plan for one less, or thicker cable."
            | "Bei {stations} {power} hat die knappste im ungünstigsten Zustand {margin} V Reserve, wovor check als thin-margin warnt: eine weniger planen oder dickere Leitung.",
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
        LockFails { lock: &'a str, length: &'a str, cable: &'a str, voltage: &'a str, needs: &'a str, longest: Option<&'a str> }:
            "{lock} over {length} m of {cable} does not work: of the door station's voltage {voltage} V arrive and it needs {needs} V<; this cable reaches {longest} m>."
            | "{lock} über {length} m {cable} arbeitet nicht: Von der Spannung der Türstation kommen {voltage} V an, und es braucht {needs} V<; diese Leitung reicht {longest} m>.",
        LockTooFar { lock: &'a str, length: &'a str, cable: &'a str, longest: Option<&'a str> }:
            "No cable of the catalogue feeds {lock} over {length} m from the door station<; {cable} reaches {longest} m>."
            | "Keine Leitung des Katalogs speist {lock} über {length} m aus der Türstation<; {cable} reicht {longest} m>.",
        LockTooFarOutdoors { lock: &'a str, length: &'a str, cable: &'a str, longest: Option<&'a str> }:
            "No cable of the catalogue that is made for outdoors feeds {lock} over {length} m from the door station<; {cable} reaches {longest} m>."
            | "Keine für außen gemachte Leitung des Katalogs speist {lock} über {length} m aus der Türstation<; {cable} reicht {longest} m>.",
        LockOwnSupply { cable: &'a str, supply: &'a str, tolerance: &'a str, voltage: &'a str }:
            "Way out: a supply of the lock's own at {supply} V, {tolerance} %, beside the door station: over {cable} the lock then has at least {voltage} V."
            | "Ausweg: ein eigenes Netzteil für das Schloss mit {supply} V, {tolerance} %, neben der Türstation: Über {cable} hat das Schloss dann mindestens {voltage} V.",
        LockDoubled { cable: &'a str, longest: &'a str }:
            "Two pairs of {cable} side by side reach {longest} m; state such a cable under [cables] with half the resistance."
            | "Zwei Paare {cable} nebeneinander reichen {longest} m; eine solche Leitung unter [cables] mit halbem Widerstand angeben.",
        LockOther { cable: &'a str }: "{cable} does." | "{cable} genügt.",
        LockNoWay:
            "No usual supply of its own carries it over this cable either: put that supply at the lock and switch it by a relay."
            | "Auch kein übliches eigenes Netzteil speist es über diese Leitung: dieses Netzteil ans Schloss setzen und über ein Relais schalten.",
        LockUnsuited { cable: &'a str }:
            "{cable} is not made for outdoors, which check warns of."
            | "{cable} ist nicht für außen gemacht, wovor check warnt.",
        LockIndoors:
            "For a cable that runs indoors; for a door outdoors ask with --outdoors."
            | "Für eine Leitung im Gebäude; für eine Tür im Freien mit --outdoors fragen.",
        LockOutdoors: "For a cable that runs outdoors." | "Für eine Leitung im Freien.",
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
        HoursBroken { stations: usize, model: &'a str, supply: &'a str, titles: &'a str, current: Option<&'a str>, rated: Option<&'a str> }:
            "{stations} {model} do not work on one {supply}: {titles}< (largest current {current} A>< of {rated} A)>."
            | "{stations} {model} arbeiten nicht an einem {supply}: {titles}< (größter Strom {current} A>< von {rated} A)>.",
        Heater { door: &'a str, hours: &'a str }:
            "That leaves out the heater of {door}: with it on, {hours} h."
            | "Ohne die Heizung von {door}: mit ihr {hours} h.",
        ChargerSlow { hours: &'a str }:
            "The charger takes {hours} h to fill them again, more than a day: check warns of charger-too-small."
            | "Das Ladegerät braucht {hours} h, um sie wieder zu füllen, mehr als einen Tag: check warnt mit charger-too-small.",
        HoursShortWithHeater { wanted: &'a str }:
            "That is enough for {wanted} h without the heater, not with it."
            | "Das reicht für {wanted} h ohne die Heizung, nicht mit ihr.",
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
        SwitchesNamed { name: &'a str, number: usize }:
            "{name} has the number {number} in its name. If another dwelling has {number}, 27A beside 27B say, this one gets another number: latchline addresses SITE {name} tells which."
            | "{name} hat die Nummer {number} im Namen. Hat eine andere Wohnung die {number}, etwa 27A neben 27B, bekommt diese eine andere Nummer: latchline addresses ANLAGE {name} sagt, welche.",
        OutOfRange { field: &'a str, number: usize, low: usize, high: usize }:
            "{field} {number} cannot be set: its switches go from {low} to {high}."
            | "{field} {number} lässt sich nicht einstellen: Die Schalter gehen von {low} bis {high}.",
        Caution:
            "A calculation, not a certificate; check the real site with: latchline check"
            | "Eine Berechnung, kein Nachweis; die wirkliche Anlage prüfen mit: latchline check",
    }
}
