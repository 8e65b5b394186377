//! What locating a fault says: causes, symptoms, what to measure next and how to mend.

use crate::row::{kebab, sentences, words};
use latchline_finding::{Both, Figure, Unit};

words! {
    /// A kind of cause.
    pub enum Kind {
        BatteryAged: "aged battery" | "gealterte Batterie",
        BoxDead: "box dead" | "Verteiler ohne Funktion",
        BridgedTap: "stub of cable left on the pair" | "Stichleitung am Paar",
        ButtonFailed: "call button failed" | "Ruftaste defekt",
        CameraFailed: "camera failed" | "Kamera defekt",
        CladAluminium: "copper-clad aluminium instead of copper" | "kupferplattiertes Aluminium statt Kupfer",
        DesignAsDrawn: "nothing is broken: the design is too weak" | "nichts defekt: Die Planung ist zu schwach",
        DisplayFailed: "display failed" | "Bildschirm defekt",
        DoorBinding: "door binds or strike under pressure" | "Tür klemmt oder Öffner unter Druck",
        DoorOverdraw: "door station draws too much" | "Türstation zieht zu viel",
        DoorStationDead: "door station dead" | "Türstation ohne Funktion",
        ExitButton: "exit button stuck" | "Austaster hängt",
        ForeignFamily: "station of another family" | "Station einer anderen Familie",
        HandsetFailed: "microphone or speaker failed" | "Mikrofon oder Lautsprecher defekt",
        InAndOut: "in and out exchanged" | "Ein- und Ausgang vertauscht",
        Joint: "bad joint or terminal" | "schlechte Verbindung oder Klemme",
        Leakage: "leakage between the legs, water" | "Ableitung zwischen den Adern, Wasser",
        LegToEarth: "one leg to earth" | "eine Ader an Erde",
        LockCircuit: "lock circuit: cable, contact or coil" | "Schlosskreis: Leitung, Kontakt oder Spule",
        LockDiode: "diode at the lock reversed or shorted" | "Diode am Schloss verpolt oder durchlegiert",
        LongerRun: "cable longer than drawn" | "Leitung länger als gezeichnet",
        MicrophoneFailed: "door microphone or speaker failed" | "Mikrofon oder Lautsprecher der Türstation defekt",
        Open: "break" | "Unterbrechung",
        PairLegOpen: "one leg of a doubled pair open" | "eine Ader eines doppelten Paars offen",
        PortDead: "port dead" | "Ausgang ohne Funktion",
        Reversed: "conductors reversed" | "Adern vertauscht",
        RingerMuted: "ringer muted" | "Ruf stummgeschaltet",
        SettingDuplicate: "setting used twice" | "Einstellung doppelt",
        SettingWrong: "setting wrong" | "Einstellung falsch",
        Short: "short circuit" | "Kurzschluss",
        ShortResistive: "resistive short circuit" | "Schluss mit Übergangswiderstand",
        SplitPair: "split pair" | "vertauschte Paare",
        StationDead: "indoor station dead" | "Wohnungsstation ohne Funktion",
        StationOverdraw: "indoor station draws too much" | "Wohnungsstation zieht zu viel",
        StationRemoved: "station taken off" | "Station abgenommen",
        SupplyDead: "supply dead, breaker or time switch" | "Netzteil ohne Funktion, Sicherung oder Schaltuhr",
        SupplyLow: "supply below its voltage" | "Netzteil unter seiner Spannung",
        SupplySoft: "supply gives way under load" | "Netzteil bricht unter Last ein",
        TerminatorDirect: "terminator without its capacitor" | "Abschluss ohne Kondensator",
        TerminatorExtra: "terminator too many or misplaced" | "Abschluss zu viel oder am falschen Ort",
        TerminatorMissing: "terminator missing" | "Abschluss fehlt",
        ThinConductor: "conductor thinner than drawn" | "Ader dünner als gezeichnet",
        WrongPort: "run on the wrong port" | "Strang am falschen Ausgang",
    }
}

impl Kind {
    /// The unit of its size, of causes that have one; per cent of what is planned, or of the way along a section.
    pub fn size_unit(self) -> Unit {
        match self {
            Kind::ThinConductor | Kind::CladAluminium | Kind::LongerRun | Kind::SupplyLow | Kind::Short => {
                Unit::Percent
            }
            Kind::StationOverdraw | Kind::DoorOverdraw => Unit::Watt,
            Kind::BridgedTap => Unit::Metre,
            _ => Unit::Ohm,
        }
    }

    /// The stable name used in files and in JSON: `bridged-tap`.
    pub fn name(self) -> String {
        kebab(&format!("{self:?}"))
    }

    /// The kind of a stable name.
    pub fn of_name(name: &str) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| kind.name() == name)
    }
}

words! {
    /// What people tell.
    pub enum SymptomKind {
        AfterPowerCut: "only after a power cut" | "nur nach Stromausfall",
        AlwaysReleased: "door stays released" | "Tür bleibt freigegeben",
        ComesAndGoes: "comes and goes" | "kommt und geht",
        Dead: "dead" | "tot",
        Dim: "dim" | "dunkel",
        DoesNotRing: "does not ring" | "klingelt nicht",
        Found: "in the list of devices" | "in der Geräteliste",
        Ghosting: "ghost images" | "Geisterbilder",
        Howls: "howls" | "pfeift",
        Hums: "hums" | "brummt",
        NoPicture: "no picture" | "kein Bild",
        NoRelease: "door does not release" | "Tür gibt nicht frei",
        NoSpeech: "no speech" | "keine Sprache",
        Noise: "noise" | "Rauschen",
        NotFound: "not in the list of devices" | "nicht in der Geräteliste",
        Restarts: "restarts when called" | "startet bei Ruf neu",
        RingsElsewhere: "rings in another flat" | "klingelt in einer anderen Wohnung",
        TwoRing: "two ring at once" | "zwei klingeln zugleich",
        WhenWet: "only when wet" | "nur bei Nässe",
        Works: "works" | "funktioniert",
    }
}

impl SymptomKind {
    /// The stable name used in files and on the command line.
    pub fn name(self) -> String {
        kebab(&format!("{self:?}"))
    }

    /// Whether it tells that something is wrong.
    pub fn is_bad(self) -> bool {
        !matches!(self, SymptomKind::Works | SymptomKind::Found)
    }

    /// Whether it is told of a station that gives no sign.
    pub fn is_silent(self) -> bool {
        matches!(
            self,
            SymptomKind::Dead
                | SymptomKind::NotFound
                | SymptomKind::DoesNotRing
                | SymptomKind::NoPicture
                | SymptomKind::NoSpeech
        )
    }

    /// Whether both can be true of one station at the same time. What shows at times only, or at the lock, agrees with a station that works.
    pub fn agrees_with(self, other: SymptomKind) -> bool {
        use SymptomKind::{AfterPowerCut, AlwaysReleased, ComesAndGoes, Dead, Dim, Found, Ghosting, Howls};
        use SymptomKind::{Hums, NoRelease, Noise, NotFound, Restarts, WhenWet, Works};
        // A door station that works may have a lock that does not.
        let beside = |kind| {
            matches!(kind, AfterPowerCut | AlwaysReleased | ComesAndGoes | NoRelease | NotFound | WhenWet)
        };
        let contradicts = |one: SymptomKind, other: SymptomKind| match one {
            Works => other.is_bad() && !beside(other),
            Dead => matches!(other, Dim | Ghosting | Howls | Hums | Noise | Restarts),
            Found => other == NotFound,
            _ => false,
        };
        !contradicts(self, other) && !contradicts(other, self)
    }

    /// The symptom of a stable name.
    pub fn of_name(name: &str) -> Option<SymptomKind> {
        SymptomKind::ALL.iter().copied().find(|kind| kind.name() == name)
    }
}

words! {
    /// What a word of a row of readings stands for.
    pub enum RowWord {
        Column: "column" | "Spalte",
        Key: "key" | "Schlüssel",
        Quantity: "quantity" | "Messgröße",
        Lead: "lead" | "Messleitung",
        Taken: "taken" | "Angabe taken",
        Instrument: "instrument" | "Messgerät",
    }
}

sentences! {
    /// Why a reading cannot be.
    pub enum NotPossible {
        AboveSupplies { highest: Figure }:
            "no supply gives more than {highest}" | "kein Netzteil gibt mehr als {highest}",
        BelowZero: "it is below zero" | "er liegt unter null",
        AboveBuses: "no bus carries as much" | "so viel führt kein Bus",
    }
}

sentences! {
    /// What is wrong with a line of readings.
    pub enum Problem<'a> {
        UnknownPlace { name: &'a str, nearest: Option<&'a str> }:
            "the site has no place \"{name}\"<; nearest: {nearest}>"
            | "die Anlage hat keine Stelle „{name}“<; am nächsten: {nearest}>",
        NotAnItem { text: &'a str }:
            "\"{text}\" is not a reading: write PLACE=VALUE, for example A-12=33V, A-12@ringing=33V or A-12=dead"
            | "„{text}“ ist keine Messung: STELLE=WERT, zum Beispiel A-12=33V, A-12@ringing=33V oder A-12=dead",
        StateForPlace { state: &'a str, value: &'a str }:
            "\"{state}\" is a state, not a place: write where the meter was before it, for example A-12@{state}={value}"
            | "„{state}“ ist ein Zustand, keine Stelle: davor schreiben, wo gemessen wurde, zum Beispiel A-12@{state}={value}",
        NotAValue { text: &'a str, known: &'a str }:
            "\"{text}\" is neither a number with its unit (V, mV, A, mA, ohm, kohm, Mohm, nF), nor \"open\", nor something that can be told: {known}"
            | "„{text}“ ist weder eine Zahl mit Einheit (V, mV, A, mA, ohm, kohm, Mohm, nF) noch „open“ noch etwas, das sich melden lässt: {known}",
        NotText { key: &'a str }:
            "{key} is written as text in quotes"
            | "{key} steht als Text in Anführungszeichen",
        NoUnit { text: &'a str, at: &'a str }:
            "\"{text}\" has no unit: write {at}={text}V if it is volts; else mV, A, mA, ohm, kohm, Mohm or nF after the number"
            | "„{text}“ hat keine Einheit: {at}={text}V schreiben, wenn es Volt sind; sonst mV, A, mA, ohm, kohm, Mohm oder nF hinter der Zahl",
        UnknownWord { what: RowWord, text: &'a str, known: &'a str }:
            "{what} \"{text}\" is not known; one of {known}"
            | "{what} „{text}“ ist unbekannt; möglich: {known}",
        DecimalComma { text: &'a str }:
            "\"{text}\": write a decimal point"
            | "„{text}“: mit Dezimalpunkt schreiben",
        BelowZero { value: &'a str, name: &'a str, at: &'a str, amount: &'a str }:
            "{value} at {name} is below zero, more than reversed wires explain: swap the meter leads and read again, or write it without the minus: {at}={amount}"
            | "{value} an {name} liegt unter null, mehr als vertauschte Adern erklären: Messleitungen tauschen und noch einmal messen, oder ohne Minus schreiben: {at}={amount}",
        NotAtThisPlace { quantity: &'a str, name: &'a str }:
            "{quantity} cannot be read at {name}: loops, insulation and capacitance are read of a run, voltages and currents at terminals"
            | "{quantity} lässt sich an {name} nicht messen: Schleife, Isolation und Kapazität misst man am Strang, Spannungen und Ströme an Klemmen",
        NotASymptomOfThisPlace { symptom: &'a str, name: &'a str }:
            "\"{symptom}\" is said of a station, not of {name}"
            | "„{symptom}“ gilt einer Station, nicht {name}",
        Contradicted { name: &'a str, one: &'a str, other: &'a str }:
            "{name} cannot be told \"{one}\" and \"{other}\" at once: ask again what is true now; neither is used"
            | "{name} kann nicht zugleich „{one}“ und „{other}“ sein: nachfragen, was jetzt gilt; beides bleibt weg",
        NoSuchState { text: &'a str, name: &'a str }:
            "the state \"{text}\" cannot occur at {name}; states are standby, night, ringing, talking, releasing, power-return. Behind a call :STATION says who is called and /CALLER who calls; + joins calls that stand at once, as many as the site lets: ringing:A-45/gate+ringing:A-44/lodge"
            | "den Zustand „{text}“ gibt es an {name} nicht; Zustände sind standby, night, ringing, talking, releasing, power-return. Hinter einem Ruf sagt :STATION, wer gerufen wird, und /RUFER, wer ruft; + verbindet gleichzeitige Rufe, so viele die Anlage zulässt: ringing:A-45/gate+ringing:A-44/lodge",
        NotFed { name: &'a str }:
            "no supply reaches {name}"
            | "kein Netzteil erreicht {name}",
        CapacitanceUnknown { name: &'a str }:
            "the capacitance of the cable of {name} is not in the catalogue"
            | "die Kapazität der Leitung von {name} steht nicht im Katalog",
        TooHigh { value: &'a str, name: &'a str, most: &'a str }:
            "{value} at {name}: there can be {most} at most, since a fault only lowers a voltage. Is it the unit, the range of the meter, or another supply than drawn? The reading is left out; write {value}! if it is right"
            | "{value} an {name}: Dort können höchstens {most} sein, denn ein Fehler senkt eine Spannung nur. Ist es die Einheit, der Messbereich, ein anderes Netzteil als gezeichnet? Der Wert bleibt weg; {value}! schreiben, wenn er stimmt",
        OtherLead { lead: &'a str, name: &'a str }:
            "with the other lead on {lead} the reading says nothing about {name}: a bus without earth shows any voltage there. Read voltages between the two legs. For a drop along one conductor, add same-leg"
            | "mit der anderen Messleitung an {lead} sagt der Wert nichts über {name}: Ein erdfreier Bus zeigt dort beliebige Spannung. Spannungen zwischen den beiden Adern messen. Für einen Spannungsfall entlang einer Ader same-leg angeben",
        Impossible { value: &'a str, name: &'a str, why: &'a Both }:
            "{value} at {name} is not possible: {why}"
            | "{value} an {name} ist nicht möglich: {why}",
        WrongUnit { value: &'a str, name: &'a str, likely: &'a str, predicted: &'a str }:
            "{value} at {name}: was it {likely}? Without a fault {predicted} is predicted. Left out; write {value}! if it is right"
            | "{value} an {name}: waren es {likely}? Ohne Fehler werden {predicted} erwartet. Nicht verwendet; {value}! schreiben, wenn es stimmt",
        Unreadable { reason: &'a Both }: "cannot be read: {reason}" | "nicht lesbar: {reason}",
        Nothing:
            "no reading and no symptom was given: only how often each cause occurs is known"
            | "keine Messung und kein Anzeichen angegeben: Bekannt ist nur, wie oft jede Ursache vorkommt",
        SiteFails { errors: usize }:
            "the site as drawn fails: {errors:error|errors}. Mend the design first; it may itself be the cause"
            | "die Anlage besteht die Prüfung nicht: {errors:Fehler|Fehler}. Zuerst die Planung ändern; sie kann selbst die Ursache sein",
    }
}

words! {
    /// How a cause is mended, safely.
    pub enum Mend {
        Box:
            "Measure its input first. If that is right, switch off, prove dead, and exchange the box."
            | "Zuerst den Eingang messen. Stimmt er, abschalten, Spannungsfreiheit prüfen und den Verteiler tauschen.",
        Cable:
            "Switch off and prove dead. Take the cable off at both ends, test both legs, and replace it or use a spare pair."
            | "Abschalten und Spannungsfreiheit prüfen. Leitung an beiden Enden abklemmen, beide Adern prüfen, ersetzen oder ein freies Paar nehmen.",
        Design:
            "There is nothing to mend on site: run check and fix, and change the design."
            | "Vor Ort ist nichts zu beheben: check und fix laufen lassen und die Planung ändern.",
        Door:
            "Free the door and the strike by hand before anything electrical; the way out must open at all times."
            | "Vor allem Elektrischen Tür und Öffner von Hand gängig machen; der Weg ins Freie muss jederzeit offen sein.",
        Joint:
            "Switch off and prove dead. Remake the terminals at both ends of this section, both legs, and pull at each."
            | "Abschalten und Spannungsfreiheit prüfen. Klemmen an beiden Enden dieses Abschnitts neu machen, beide Adern, und an jeder ziehen.",
        Lock:
            "Keep the door passable. Measure at the lock while it is released, then cable, contact and coil one after the other; put a sound diode in the right way round."
            | "Die Tür begehbar halten. Am Schloss messen, während es freigegeben ist, dann Leitung, Kontakt und Spule nacheinander; eine heile Diode richtig herum einsetzen.",
        Port:
            "Switch off, move the run to a free port, and note it in the site file."
            | "Abschalten, den Strang auf einen freien Ausgang legen und in der Anlagendatei vermerken.",
        Reversed:
            "Switch off and prove dead. Put the two conductors right, at one end only."
            | "Abschalten und Spannungsfreiheit prüfen. Die beiden Adern richtig auflegen, nur an einem Ende.",
        Setting:
            "Compare its switches with the settings card, set them, and switch the station off and on."
            | "Schalter mit der Einstellkarte vergleichen, einstellen und die Station aus- und einschalten.",
        Short:
            "Switch off and prove dead. Open the run half way and find on which side the short is left; look for crushed cable and stray strands at terminals."
            | "Abschalten und Spannungsfreiheit prüfen. Den Strang in der Mitte öffnen und sehen, auf welcher Seite der Schluss bleibt; nach gequetschter Leitung und abstehenden Drähten an Klemmen suchen.",
        Station:
            "Take the station off and fit a known good one; stations beyond it are off meanwhile."
            | "Station abnehmen und eine heile einsetzen; Stationen dahinter sind solange ohne Spannung.",
        Supply:
            "Mains side: by a licensed person only. Measure the output with all runs off, then put them back one by one."
            | "Netzseite: nur durch eine Elektrofachkraft. Ausgang mit allen Strängen ab messen, dann einzeln wieder auflegen.",
        Terminator:
            "Set the terminator, with its capacitor, on the last station of the run and on no other."
            | "Den Abschluss mit Kondensator an der letzten Station des Strangs setzen und an keiner anderen.",
        Water:
            "Switch off and prove dead. Open boxes and outdoor stations on this run, dry and reseal them, and replace cable that stays below 0.5 Mohm."
            | "Abschalten und Spannungsfreiheit prüfen. Dosen und Außenstationen dieses Strangs öffnen, trocknen und abdichten; Leitung ersetzen, die unter 0,5 Mohm bleibt.",
    }
}

impl Kind {
    /// How it is mended.
    pub fn mend(self) -> Mend {
        match self {
            Kind::Joint => Mend::Joint,
            Kind::Open | Kind::PairLegOpen | Kind::ThinConductor | Kind::CladAluminium | Kind::LongerRun => {
                Mend::Cable
            }
            Kind::SplitPair | Kind::BridgedTap => Mend::Cable,
            Kind::Reversed | Kind::InAndOut => Mend::Reversed,
            Kind::Short | Kind::ShortResistive => Mend::Short,
            Kind::Leakage | Kind::LegToEarth => Mend::Water,
            Kind::DesignAsDrawn => Mend::Design,
            Kind::SettingWrong | Kind::SettingDuplicate | Kind::RingerMuted => Mend::Setting,
            Kind::WrongPort | Kind::PortDead => Mend::Port,
            Kind::TerminatorMissing | Kind::TerminatorExtra | Kind::TerminatorDirect => Mend::Terminator,
            Kind::LockCircuit | Kind::LockDiode | Kind::ExitButton => Mend::Lock,
            Kind::DoorBinding => Mend::Door,
            Kind::SupplyDead | Kind::SupplyLow | Kind::SupplySoft | Kind::BatteryAged => Mend::Supply,
            Kind::BoxDead => Mend::Box,
            Kind::ForeignFamily
            | Kind::StationDead
            | Kind::StationOverdraw
            | Kind::StationRemoved
            | Kind::HandsetFailed
            | Kind::DisplayFailed
            | Kind::DoorStationDead
            | Kind::DoorOverdraw
            | Kind::ButtonFailed
            | Kind::MicrophoneFailed
            | Kind::CameraFailed => Mend::Station,
        }
    }
}

sentences! {
    /// What is read, where, and how.
    pub enum ReadingWords<'a> {
        Voltage { place: &'a str, when: Option<&'a str> }:
            "voltage at {place}<, {when}>"
            | "Spannung an {place}<, {when}>",
        Drop { from: &'a str, to: &'a str, when: Option<&'a str> }:
            "voltage lost from {from} to {to}, both legs together<, {when}>"
            | "Spannungsabfall von {from} bis {to}, beide Adern zusammen<, {when}>",
        LegDrop { from: &'a str, to: &'a str, when: Option<&'a str> }:
            "voltage lost from {from} to {to} along one leg<, {when}>"
            | "Spannungsabfall von {from} bis {to} auf einer Ader<, {when}>",
        CurrentOut { place: &'a str, when: Option<&'a str> }:
            "current out of {place}, meter in series with one leg at its output terminals<, {when}>"
            | "Strom aus {place}, Messgerät in Reihe mit einer Ader an den Ausgangsklemmen<, {when}>",
        CurrentInRun { run: &'a str, start: &'a str, when: Option<&'a str> }:
            "current in run {run}, meter in series with one leg at {start}, where it starts<, {when}>"
            | "Strom im Strang {run}, Messgerät in Reihe mit einer Ader an {start}, wo er beginnt<, {when}>",
        CurrentIn { place: &'a str, when: Option<&'a str> }:
            "current that {place} takes, meter in series with one leg at its terminals<, {when}>"
            | "Strom, den {place} nimmt, Messgerät in Reihe mit einer Ader an den Klemmen<, {when}>",
        Loop { place: &'a str }:
            "loop resistance of {place}, dead, taken off at both ends and from its stations, far end shorted"
            | "Schleifenwiderstand von {place}, spannungsfrei, an beiden Enden und von den Stationen abgeklemmt, fernes Ende gebrückt",
        Insulation { place: &'a str }:
            "resistance between the legs of {place}, dead, taken off at both ends and from its stations"
            | "Widerstand zwischen den Adern von {place}, spannungsfrei, an beiden Enden und von den Stationen abgeklemmt",
        Earth { place: &'a str }:
            "resistance from the legs of {place} to earth, dead, taken off at both ends and from its stations"
            | "Widerstand der Adern von {place} gegen Erde, spannungsfrei, an beiden Enden und von den Stationen abgeklemmt",
        Capacitance { place: &'a str }:
            "capacitance of {place}, dead, taken off at both ends and from its stations, far end open"
            | "Kapazität von {place}, spannungsfrei, an beiden Enden und von den Stationen abgeklemmt, fernes Ende offen",
    }
}

sentences! {
    /// One place to look at.
    pub enum PlaceWords<'a> {
        Section { section: &'a str }:
            "the cable {section} and its terminals"
            | "die Leitung {section} und ihre Klemmen",
        With { section: &'a str, at: &'a str }:
            "the cable {section}, its terminals and {at} itself"
            | "die Leitung {section}, ihre Klemmen und {at} selbst",
    }
}

sentences! {
    /// What stands on the pictures of an answer.
    pub enum PictureWords<'a> {
        Suspect { place: &'a str, causes: &'a str }: "{place}: {causes}" | same,
        WholeSite: "the site as a whole" | "die Anlage im Ganzen",
        Way { from: &'a str, to: &'a str, when: &'a str }: "{from} to {to}, {when}" | "{from} bis {to}, {when}",
        WithCause { cause: &'a str }: "dashed: {cause}" | "gestrichelt: {cause}",
        NoVoltage { cause: &'a str }:
            "{cause}: no voltage shows it"
            | "{cause}: an keiner Spannung zu sehen",
        NothingKnown: "before anything is known" | "bevor etwas bekannt ist",
        Told { told: &'a str, more: Option<usize> }: "told: {told}< and {more} more>" | "gemeldet: {told}< und {more} weitere>",
        ReadingIs { reading: &'a str, value: &'a str }: "{reading}: {value}" | same,
        NoneOfThese: "none of these" | "nichts davon",
    }
}

sentences! {
    /// How large a cause is.
    pub enum SizeWords {
        Ohms { best: Figure, low: Figure, high: Figure }:
            "about {best} ({low} to {high})"
            | "etwa {best} ({low} bis {high})",
        Times { best: Figure, low: Figure, high: Figure }:
            "about {best} of what is planned ({low} to {high})"
            | "etwa {best} des Geplanten ({low} bis {high})",
        Along { low: Figure, high: Figure }:
            "between {low} and {high} of the way along it"
            | "zwischen {low} und {high} seiner Länge",
    }
}

sentences! {
    /// A line of the answer.
    pub enum Answer<'a> {
        Cause { share: Figure, cause: &'a str, element: Option<&'a str>, size: Option<&'a str> }:
            "{share} {cause}<, {element}><, {size}>" | same,
        Told { cause: &'a str, element: Option<&'a str>, share: Figure }:
            "Most likely {cause}<, {element}>: {share}."
            | "Am wahrscheinlichsten: {cause}<, {element}>, {share}.",
        ToldOfClass { causes: usize, within: Option<&'a str>, cause: &'a str, element: Option<&'a str>, own: Figure, share: Figure }:
            "Not decided yet: the readings do not tell {causes:cause|causes} apart<, all in {within}>, {share} together. Likeliest of them, at {own}: {cause}<, {element}>."
            | "Noch nicht entschieden: Die Messungen unterscheiden {causes:Ursache|Ursachen} nicht<, alle in {within}>, zusammen {share}. Am wahrscheinlichsten davon, mit {own}: {cause}<, {element}>.",
        ToldOfPlace { place: &'a str, share: Figure, cause: &'a str, own: Figure }:
            "Where to look is sure enough: {place}, {share}. What it is there is not: likeliest, at {own}, {cause}."
            | "Wo zu suchen ist, ist sicher genug: {place}, {share}. Was es dort ist, nicht: am wahrscheinlichsten, mit {own}, {cause}.",
        AskElsewhere { station: &'a str, symptom: &'a str }:
            "On the telephone, before anybody goes: does {station} work, or is it the same there ({symptom})?"
            | "Am Telefon, bevor jemand geht: Funktioniert {station}, oder ist es dort genauso ({symptom})?",
        IfTold { told: &'a str, share: Figure, places: &'a str }:
            "{told}, with a probability of {share}: look first at {places}"
            | "{told}, mit {share} Wahrscheinlichkeit: zuerst nachsehen bei {places}",
        PlaceWithShare { place: &'a str, share: Figure }:
            "{place} ({share})"
            | "{place} ({share})",
        ThenTell { command: &'a str }:
            "Then ask again with the answer, for example: {command}"
            | "Dann mit der Antwort noch einmal fragen, zum Beispiel: {command}",
        LookFirst { place: &'a str, share: Figure }:
            "Look first at {place}: {share} together."
            | "Zuerst hier nachsehen: {place}, zusammen {share}.",
        AsPredicted:
            "These readings are as predicted: no fault shows in them."
            | "Diese Messwerte sind wie vorausberechnet: In ihnen zeigt sich kein Fehler.",
        AsPredictedOnlyTold:
            "The readings are as predicted: only what was told speaks for a fault."
            | "Die Messwerte sind wie vorausberechnet: Für einen Fehler spricht nur, was gemeldet ist.",
        WithinPlan { value: &'a str, low: Figure, high: Figure }:
            "{value} is within what is planned ({low} to {high}): nothing to look for, unless something goes wrong there."
            | "{value} liegt in dem, was geplant ist ({low} bis {high}): nichts zu suchen, außer es geht dort etwas nicht.",
        WithinPlanButTold { value: &'a str, low: Figure, high: Figure }:
            "{value} is within what is planned ({low} to {high}): only what was told speaks for a fault."
            | "{value} liegt in dem, was geplant ist ({low} bis {high}): Für einen Fehler spricht nur, was gemeldet ist.",
        StillPossible { cause: &'a str, element: Option<&'a str>, own: Figure }:
            "If there is one all the same, likeliest, at {own}: {cause}<, {element}>."
            | "Gibt es doch einen, am wahrscheinlichsten, mit {own}: {cause}<, {element}>.",
        NotToldApart { causes: usize, share: Figure }:
            "Still possible, {share} together ({causes:cause|causes}):"
            | "Noch möglich, zusammen {share} ({causes:Ursache|Ursachen}):",
        PointedAtByNothing { causes: usize, share: Figure, cause: &'a str, element: Option<&'a str> }:
            "{share} together: {causes:cause|causes} without any sign so far, such as {cause}<, {element}>"
            | "zusammen {share}: {causes:Ursache|Ursachen}, bisher ohne Hinweis, etwa {cause}<, {element}>",
        AndMore { causes: usize, share: Figure }:
            "and {causes:more|more}, {share} together"
            | "und {causes:weitere|weitere}, zusammen {share}",
        AskFirst:
            "Ask the caller before anything is measured. Which stations: one, all of a floor or a run, all of the house? What do they do: dead, restart when called, dim, no picture, noise, rings elsewhere, door does not release? Since when; only when called, when wet, after a power cut? If only one flat has it, it is not the supply; if a whole run has it, it is not the stations. A question costs no journey."
            | "Vor jeder Messung den Anrufer fragen. Welche Stationen: eine, alle eines Stockwerks oder Strangs, alle im Haus? Was tun sie: tot, Neustart bei Ruf, dunkel, kein Bild, Rauschen, klingelt anderswo, Tür gibt nicht frei? Seit wann; nur bei Ruf, bei Nässe, nach Stromausfall? Hat es nur eine Wohnung, ist es nicht das Netzteil; hat es ein ganzer Strang, sind es nicht die Stationen. Fragen kostet keine Fahrt.",
        HowToTell { command: &'a str }:
            "Then: {command}" | "Dann: {command}",
        BeforeAnything:
            "Before anything is known, of a hundred calls (common practice, no source):"
            | "Bevor etwas bekannt ist, von hundert Anrufen (übliche Praxis, ohne Quelle):",
        FirstReading:
            "If nobody can be asked, this reading says most for the time it takes:"
            | "Ist niemand zu fragen, sagt diese Messung für ihre Zeit am meisten:",
        Others: "Less likely:" | "Weniger wahrscheinlich:",
        NoneOfThese { share: Figure }:
            "{share} none of these"
            | "{share} keine davon",
        NothingFits:
            "Nothing in the list explains the readings well: two faults at once, a wrong reading, or something else."
            | "Nichts in der Liste erklärt die Messungen gut: zwei Fehler zugleich, eine falsche Messung oder etwas anderes.",
        Pair { share: Figure, first: &'a str, second: &'a str }:
            "Two at once would explain it: {first}; and {second} ({share} among the pairs that were tried)."
            | "Zwei zugleich würden es erklären: {first}; und {second} ({share} unter den geprüften Paaren).",
        Doubtful { reading: &'a str, value: &'a str, share: Figure }:
            "{value} does not fit the rest ({reading}): it is wrong with a probability of {share}. Take it again."
            | "{value} passt nicht zum Übrigen ({reading}): Der Wert ist mit einer Wahrscheinlichkeit von {share} falsch. Noch einmal messen.",
        Next { reading: &'a str, minutes: usize }:
            "Read next: {reading} (about {minutes:minute|minutes})."
            | "Als Nächstes: {reading} (etwa {minutes:Minute|Minuten}).",
        NextElsewhere { reading: &'a str, minutes: usize }:
            "If that cannot be done, read instead: {reading} (about {minutes:minute|minutes})."
            | "Geht das nicht, stattdessen: {reading} (etwa {minutes:Minute|Minuten}).",
        ThenGive { command: &'a str }:
            "Then ask again with the figure that you read, for example: {command}"
            | "Dann mit dem gemessenen Wert noch einmal fragen, zum Beispiel: {command}",
        Meaning { low: Figure, high: Figure, share: Figure, causes: &'a str }:
            "{low} to {high}, with a probability of {share}: {causes}"
            | "{low} bis {high}, mit einer Wahrscheinlichkeit von {share}: {causes}",
        ThenOne { cause: &'a str, share: Figure }: "{cause} (it is then {share} sure)" | "{cause} (dann zu {share} sicher)",
        ThenMany: "no cause stands out then" | "dann sticht keine Ursache heraus",
        ThenSound { share: Figure }:
            "nothing that a meter sees here (it is then {share} sure)" | "nichts, was ein Messgerät hier sieht (dann zu {share} sicher)",
        SureEnough { share: Figure }:
            "It is sure enough where to look ({share} was asked for): no further reading is needed."
            | "Es ist sicher genug, wo zu suchen ist (verlangt waren {share}): Keine weitere Messung ist nötig.",
        NoReadingTells:
            "No meter reading tells the rest apart: look at them one after the other."
            | "Keine Messung unterscheidet den Rest: der Reihe nach ansehen.",
        Proof { reading: &'a str, low: Figure, high: Figure }:
            "When it is mended, check it: {reading} must be between {low} and {high}."
            | "Nach der Behebung nachmessen: {reading} muss zwischen {low} und {high} liegen.",
        Caution:
            "Probabilities rest on the table of rates (common practice, no source; latchline locate --show-rates). They are true only if the site file is as built. They are not a certificate."
            | "Wahrscheinlichkeiten beruhen auf der Tabelle der Häufigkeiten (übliche Praxis, ohne Quelle; latchline locate --show-rates). Sie gelten nur, wenn die Anlagendatei dem Gebauten entspricht. Sie sind kein Nachweis.",
        CallsByNight:
            "Readings during calls are calculated with lights and heaters on."
            | "Messwerte im Ruf sind mit Beleuchtung und Heizung gerechnet.",
        Hidden { seed: usize }:
            "A fault is hidden (seed {seed}). Ask with --ask PLACE, --ask PLACE@ringing or --ask loop:RUN; say --answer KIND:ELEMENT."
            | "Ein Fehler ist versteckt (Startwert {seed}). Mit --ask STELLE, --ask STELLE@ringing oder --ask loop:STRANG fragen; --answer URSACHE:ELEMENT antworten.",
        Asked { reading: &'a str, value: &'a str, minutes: usize }:
            "{value}: {reading} ({minutes:minute|minutes})"
            | "{value}: {reading} ({minutes:Minute|Minuten})",
        Solution { cause: &'a str, element: Option<&'a str>, size: Option<&'a str> }:
            "It is {cause}<, {element}><, {size}>."
            | "Es ist {cause}<, {element}><, {size}>.",
        Right: "Right." | "Richtig.",
        RightPlace: "The right place, another cause." | "Die richtige Stelle, eine andere Ursache.",
        Wrong: "Not that." | "Das ist es nicht.",
        Score { asked: usize, minutes: usize, best: usize, best_minutes: usize }:
            "You took {asked:reading|readings} and {minutes:minute|minutes}; the readings that tell most take {best:reading|readings} and {best_minutes:minute|minutes}."
            | "Gebraucht: {asked:Messung|Messungen} und {minutes:Minute|Minuten}; die aufschlussreichsten brauchen {best:Messung|Messungen} und {best_minutes:Minute|Minuten}.",
    }
}

sentences! {
    /// What is said of a ranking from the table of faults alone.
    pub enum FromTable<'a> {
        Head: "From the table of faults alone; the answer without --table is finer, knows calls and what is told, and proposes the next reading."
            | "Aus der Fehlertabelle allein; die Antwort ohne --table ist feiner, kennt Rufe und Meldungen und schlägt die nächste Messung vor.",
        Without { items: &'a str }:
            "The table does not have, and this ranking leaves out: {items}."
            | "In der Tabelle nicht enthalten und hier nicht verwendet: {items}.",
        About { size: Figure }: "about {size}" | "etwa {size}",
        AboutOfPlan { size: Figure }: "about {size} of what is planned" | "etwa {size} des Geplanten",
        AboutAlong { size: Figure }: "about {size} of the way along it" | "etwa nach {size} seiner Länge",
        NothingRead:
            "none of what was given is a reading that the table has: voltage or current in standby by day, loop or insulation of a run alone"
            | "nichts vom Angegebenen ist ein Messwert, den die Tabelle kennt: Spannung oder Strom in Bereitschaft am Tag, Schleife oder Isolation eines Strangs allein",
    }
}

sentences! {
    /// What the site as drawn says of a place that is told of: whether it is the reason itself, and how a reading there decides it.
    pub enum AsDrawn<'a> {
        Sound { place: &'a str, when: &'a str, voltage: Figure, bound: Option<&'a str>, limit: Figure, margin: Figure }:
            "As drawn the site is not the reason: {place} keeps< {bound}> {voltage} {when}, every tolerance against it, and needs {limit}: {margin} to spare."
            | "Wie gezeichnet ist die Anlage nicht der Grund: {place} behält {when}< {bound}> {voltage}, alle Toleranzen ungünstig, und braucht {limit}: {margin} Reserve.",
        Weak { place: &'a str, when: &'a str, voltage: Figure, bound: Option<&'a str>, limit: Figure, missing: Figure }:
            "The site as drawn is reason enough: {place} has< {bound}> {voltage} {when}, every tolerance against it, and needs {limit}: {missing} too little."
            | "Die Anlage wie gezeichnet ist Grund genug: {place} hat {when}< {bound}> {voltage}, alle Toleranzen ungünstig, und braucht {limit}: {missing} zu wenig.",
        OtherThanVoltage { message: &'a str }:
            "The site as drawn is reason enough: {message}."
            | "Die Anlage wie gezeichnet ist Grund genug: {message}.",
        MeasureThat { measure: &'a str }: "Measure first: {measure}" | "Zuerst messen: {measure}",
        Collapses { place: &'a str, when: &'a str }:
            "The site as drawn is reason enough: {place} goes dark {when}, the voltage collapses."
            | "Die Anlage wie gezeichnet ist Grund genug: {place} fällt {when} aus, die Spannung bricht zusammen.",
        WeakOtherwise { place: &'a str, when: &'a str, missing: Figure }:
            "The site as drawn is the reason if it happens {when}: {place} then has {missing} too little."
            | "Die Anlage wie gezeichnet ist der Grund, wenn es so geschieht: {when}. Dann hat {place} {missing} zu wenig.",
        CollapsesOtherwise { place: &'a str, when: &'a str }:
            "The site as drawn is the reason if it happens {when}: {place} then goes dark, the voltage collapses."
            | "Die Anlage wie gezeichnet ist der Grund, wenn es so geschieht: {when}. Dann fällt {place} aus, die Spannung bricht zusammen.",
        SetBelow { supply: &'a str, set: Figure, delivered: Figure }:
            "{supply} is set to {set}; it is delivered at {delivered}."
            | "{supply} ist auf {set} eingestellt; geliefert wird es mit {delivered}.",
        EnoughThere { when: &'a str, voltage: Figure, limit: Figure }:
            "It does not show {when}: there it keeps {voltage}, every tolerance against it, and needs {limit}."
            | "Nicht zu sehen ist es so: {when}. Dann behält sie {voltage}, alle Toleranzen ungünstig, und braucht {limit}.",
        ShortThere { when: &'a str, voltage: Figure }:
            "It can fall short {when} as well: to {voltage}, every tolerance against it."
            | "Zu wenig haben kann sie auch so: {when}. Dann hat sie {voltage}, alle Toleranzen ungünstig.",
        CollapsesThere { when: &'a str }:
            "It shows {when}, too: the voltage collapses."
            | "Zu sehen ist es auch so: {when}. Die Spannung bricht zusammen.",
        Mended { command: &'a str }:
            "What mends it: {command}."
            | "Was hilft: {command}.",
        MendedByJobs:
            "What mends it stands with the jobs of the site."
            | "Was hilft, steht bei den Aufgaben der Anlage.",
        NotFed { place: &'a str }:
            "Nothing of the site file feeds {place}: whether the site is the reason cannot be said."
            | "Laut Anlagendatei speist nichts {place}: Ob die Anlage der Grund ist, lässt sich nicht sagen.",
        LeastOfAll { when: &'a str, margin: Figure }:
            "Its least, {when}: {margin} to spare."
            | "Am knappsten {when}: {margin} Reserve.",
        StartsSound { supply: &'a str }:
            "When power returns at {supply}, nothing drops out again."
            | "Kehrt das Netz an {supply} wieder, fällt nichts wieder aus.",
        StartsWithDropouts { supply: &'a str, dropouts: Option<usize>, trips: Option<usize> }:
            "When power returns at {supply}, all come up, but not without interruption<: devices drop out again {dropouts:time|times}><; the supply or a port switches off {trips:time|times}>. Restarts at that moment come from the site."
            | "Kehrt das Netz an {supply} wieder, laufen alle an, aber nicht ohne Ausfälle<: Geräte fallen {dropouts:Mal|Mal} wieder aus><; Netzteil oder Abgang schaltet {trips:Mal|Mal} ab>. Neustarts dabei kommen von der Anlage.",
        StartFails { supply: &'a str, down: usize }:
            "When power returns at {supply}, {down:device does|devices do} not come up for good: restarts at that moment come from the site."
            | "Kehrt das Netz an {supply} wieder, läuft ein Teil nicht dauerhaft an ({down:Gerät|Geräte}): Neustarts dabei kommen von der Anlage.",
        StartNotJudged { supply: &'a str, command: Option<&'a str> }:
            "When power returns at {supply}: not judged, values are missing< ({command})>."
            | "Wenn das Netz an {supply} wiederkehrt: nicht beurteilt, es fehlen Werte< ({command})>.",
        NoBattery { supply: &'a str }:
            "{supply} has no battery: every break of the mains restarts all."
            | "{supply} hat keine Batterie: Jeder Netzausfall startet alle neu.",
        Battery { supply: &'a str, hours: &'a str }:
            "An old battery of {supply} lasts {hours} h; after that all restart."
            | "Eine alte Batterie von {supply} reicht {hours} h; danach starten alle neu.",
        BatteryNotJudged { supply: &'a str, command: Option<&'a str> }:
            "The battery of {supply} is not judged: values are missing< ({command})>."
            | "Die Batterie von {supply} ist nicht beurteilt: Es fehlen Werte< ({command})>.",
        Measure { reading: &'a str }:
            "Measure first: {reading}, the least that the meter holds."
            | "Zuerst messen: {reading}, den kleinsten Wert, den das Messgerät hält.",
        WithinPlan { low: Figure, high: Figure, swap: Option<&'a str> }:
            "{low} to {high}: as planned, with the meter's error, so it is the station itself, its plug or its terminals<. {swap}>"
            | "{low} bis {high}: wie geplant, mit dem Fehler des Messgeräts, also die Station selbst, ihr Stecker oder ihre Klemmen<. {swap}>",
        SwapWithNeighbour: "Swap it with a neighbour's" | "Mit der eines Nachbarn tauschen",
        BelowPlan { limit: Figure, low: Figure }:
            "{limit} to {low}: enough, but lower than drawn. Something on the way loses more than it should, and will lose more when it is warm or old: look for it"
            | "{limit} bis {low}: ausreichend, aber niedriger als gezeichnet. Etwas auf dem Weg verliert mehr als es soll, und bei Wärme und im Alter noch mehr: suchen",
        BelowLimit { limit: Figure }:
            "below {limit}: it is the voltage. Look on the way and at the supply, and for more load than drawn"
            | "unter {limit}: Es ist die Spannung. Auf dem Weg und am Netzteil suchen, und nach mehr Last als gezeichnet",
        WithinWeakPlan { low: Figure, high: Figure, limit: Figure }:
            "{low} to {high}: as drawn. Below {limit} the design is the reason and not the station: do not swap it"
            | "{low} bis {high}: wie gezeichnet. Unter {limit} ist die Planung der Grund und nicht die Station: nicht tauschen",
        BelowWeakPlan { low: Figure }:
            "below {low}: worse than drawn. Look on the way and at the supply, and for more load than drawn"
            | "unter {low}: schlechter als gezeichnet. Auf dem Weg und am Netzteil suchen, und nach mehr Last als gezeichnet",
        WithinPlanThere { low: Figure, high: Figure, when: &'a str }:
            "{low} to {high}: as drawn, and nothing against the station: the design falls short {when}. Mend the design first; swap the station only if it happens without that"
            | "{low} bis {high}: wie gezeichnet, und nichts gegen die Station: Zu knapp ist die Planung {when}. Zuerst die Planung ändern; die Station nur tauschen, wenn es auch ohne das geschieht",
        OtherwiseOne { reading: &'a str, low: Figure, high: Figure }:
            "If that cannot be put: {reading}. {low} to {high} is as drawn then, and nothing against the station."
            | "Lässt sich das nicht herstellen: {reading}. {low} bis {high} ist dann wie gezeichnet und nichts gegen die Station.",
        ThenTell { command: &'a str }:
            "With the figure read there fewer causes are left: {command}"
            | "Mit dem dort gemessenen Wert bleiben weniger Ursachen: {command}",
    }
}

sentences! {
    /// What the dialogue at the terminal asks and says.
    pub enum Dialogue<'a> {
        Begin:
            "One question after the other; Enter alone goes on, q stops. Nothing is stored."
            | "Eine Frage nach der anderen; Eingabetaste allein geht weiter, q beendet. Nichts wird gespeichert.",
        Station:
            "Which station has the fault? Its name:"
            | "Welche Station hat den Fehler? Ihr Name:",
        Told { name: &'a str, known: &'a str }:
            "What does {name} do? One or more of {known}:"
            | "Was tut {name}? Eines oder mehrere von {known}:",
        Reading:
            "Its value with the unit, another reading (A-12=33V), none if it cannot be read, all for the whole list:"
            | "Der Wert mit Einheit, eine andere Messung (A-12=33V), none wenn sie nicht möglich ist, all für die ganze Liste:",
        More:
            "Another reading or something told (A-12=33V, A-12=dead), all for the whole list:"
            | "Eine weitere Messung oder Meldung (A-12=33V, A-12=dead), all für die ganze Liste:",
        Repeat { command: &'a str }:
            "The same without questions: {command}"
            | "Dasselbe ohne Fragen: {command}",
        Mended { reading: &'a str, low: Figure, high: Figure }:
            "When it is mended, read again: {reading}, between {low} and {high}. Its value with the unit:"
            | "Nach der Behebung noch einmal messen: {reading}, zwischen {low} und {high}. Der Wert mit Einheit:",
        Proved: "That is as it should be: this reading confirms the mend." | "Das stimmt: Diese Messung bestätigt die Behebung.",
        NotProved:
            "That is wrong: the fault is still there, or there is a second one. Begin again with what is read now."
            | "Das stimmt nicht: Der Fehler besteht noch, oder es gibt einen zweiten. Mit den jetzigen Messungen neu beginnen.",
    }
}
