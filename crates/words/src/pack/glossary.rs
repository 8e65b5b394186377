//! Trade words of the pack, in words that a caretaker reads once.

use latchline_finding::Language;

/// A trade word with what it means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Term {
    /// The word: English, German.
    word: [&'static str; 2],
    /// With what it begins where it occurs, in small letters, one beginning after the other with `|` between: English, German.
    beginnings: [&'static str; 2],
    /// What it means: English, German.
    meaning: [&'static str; 2],
}

impl Term {
    /// The word.
    pub fn word(&self, language: Language) -> &'static str {
        crate::row::of(self.word, language)
    }

    /// What it means.
    pub fn meaning(&self, language: Language) -> &'static str {
        crate::row::of(self.meaning, language)
    }

    /// Whether it occurs in a text in small letters: some word of it begins like the term.
    pub fn occurs_in(&self, small: &str, language: Language) -> bool {
        let begins = |beginning: &str| {
            small
                .match_indices(beginning)
                .any(|(at, _)| small[..at].chars().next_back().is_none_or(|before| !before.is_alphanumeric()))
        };
        crate::row::of(self.beginnings, language).split('|').any(begins)
    }
}

macro_rules! terms {
    ($($word:literal | $german:literal, ($begins:literal, $german_begins:literal):
        $meaning:literal | $german_meaning:literal;)+) => {
        /// Every trade word that is explained, in the order of the English ones.
        pub const TERMS: &[Term] = &[$(Term {
            word: [$word, $german],
            beginnings: [$begins, $german_begins],
            meaning: [$meaning, $german_meaning],
        },)+];
    };
}

terms! {
    "address" | "Adresse", ("address", "adresse"):
        "The number by which the system knows a device. It is set with small switches or keys; no two devices may have the same."
        | "Die Nummer, unter der die Anlage ein Gerät kennt. Sie wird mit kleinen Schaltern oder Tasten eingestellt; keine zwei Geräte dürfen dieselbe haben.";
    "battery's end voltage" | "Batterie-Endspannung", ("end voltage|battery's end", "batterie-endspannung|endspannung"):
        "The voltage at which the battery counts as empty and is switched off, so that it takes no harm."
        | "Die Spannung, bei der die Batterie als leer gilt und abgeschaltet wird, damit sie keinen Schaden nimmt.";
    "branch box" | "Abzweigdose", ("branch box", "abzweigdose"):
        "A box on the way of a cable, from which lines go off to several flats."
        | "Eine Dose im Lauf einer Leitung, von der Leitungen zu mehreren Wohnungen abgehen.";
    "bus" | "Bus", ("bus ", "bus "):
        "The two wires that carry power, speech and picture to every device together."
        | "Die zwei Adern, die Strom, Sprache und Bild gemeinsam zu allen Geräten führen.";
    "capacitance" | "Kapazität", ("capacitance", "kapazität"):
        "What a cable stores between its two wires; it grows with the length. A reading far too low shows a broken wire."
        | "Was eine Leitung zwischen ihren beiden Adern speichert; es wächst mit der Länge. Ein viel zu kleiner Wert zeigt eine unterbrochene Ader. Bei einer Batterie: wie viel sie enthält.";
    "cut list" | "Zuschnittliste", ("cut list", "zuschnitt"):
        "Which length of cable is cut from which drum, so that little is left over."
        | "Welche Leitungslänge von welcher Trommel geschnitten wird, damit wenig übrig bleibt.";
    "dB (decibel)" | "dB (Dezibel)", ("db", "db"):
        "A measure of how much a signal loses on its way: 6 dB leave half of its voltage, 20 dB a tenth."
        | "Ein Maß dafür, wie viel ein Signal unterwegs verliert: Bei 6 dB bleibt die halbe Spannung, bei 20 dB ein Zehntel.";
    "diode, varistor, clamp" | "Diode, Varistor, Suppressordiode", ("diode|varistor|suppressor", "diode|varistor|suppressordiode"):
        "A small part across a lock's coil. It takes the jolt of voltage when the coil is switched off, which would harm the contact."
        | "Ein kleines Teil an der Spule eines Schlosses. Es fängt den Spannungsstoß beim Abschalten ab, der dem Kontakt schaden würde.";
    "distributor" | "Verteiler", ("distributor", "verteiler"):
        "The box from which the lines of the building go off, each from a port of its own."
        | "Der Kasten, von dem die Leitungen des Gebäudes abgehen, jede von einem eigenen Abgang.";
    "drop (voltage drop)" | "Abfall (Spannungsfall)", ("drop|voltage drop", "spannungsfall|abfall"):
        "What is lost of the voltage along a cable: the longer and thinner the cable and the larger the current, the more."
        | "Was entlang einer Leitung an Spannung verloren geht: je länger und dünner sie ist und je größer der Strom, desto mehr.";
    "resistor at the end of the line" | "Abschlusswiderstand am Leitungsende", ("resistor at the end", "abschlusswiderstand am"):
        "A small part at the contact of an alarm line, by which the system notices a cut wire."
        | "Ein kleines Teil am Kontakt einer Meldelinie, an dem die Anlage eine durchtrennte Ader erkennt.";
    "entrance" | "Eingang", ("entrance", "eingang"):
        "A door or gate with a door station." | "Eine Tür oder ein Tor mit einer Türstation.";
    "escape route" | "Fluchtweg", ("escape route", "fluchtweg"):
        "The way out in danger. A door on it must open from inside at any time, with or without power."
        | "Der Weg ins Freie bei Gefahr. Eine Tür darin muss sich von innen jederzeit öffnen lassen, mit und ohne Strom.";
    "extension" | "Nebenstelle", ("extension", "nebenstelle"):
        "A second or further indoor station in the same flat."
        | "Eine zweite oder weitere Innenstation in derselben Wohnung.";
    "extra-low voltage" | "Kleinspannung", ("extra-low voltage", "kleinspannung"):
        "A voltage so low that touching it does no harm in dry rooms. It is kept apart from the mains all the way."
        | "Eine so niedrige Spannung, dass Berühren in trockenen Räumen nicht schadet. Sie wird überall vom Netz getrennt gehalten.";
    "fire interlock" | "Brandfallsteuerung", ("fire interlock", "brandfallsteuerung"):
        "The contact of the fire alarm that releases doors when there is a fire."
        | "Der Kontakt der Brandmeldeanlage, der im Brandfall Türen freigibt.";
    "insulation" | "Isolation", ("insulation", "isolation"):
        "What keeps the wires of a cable apart from each other and from earth. Sound cable has hundreds of megohms; a low reading shows damp or damage."
        | "Was die Adern einer Leitung voneinander und von der Erde trennt. Gesunde Leitungen haben hunderte Megaohm; ein kleiner Wert zeigt Feuchte oder Schaden.";
    "isolate, prove dead" | "freischalten, Spannungsfreiheit feststellen", ("isolate|prove dead|proved dead", "freischalten|spannungsfreiheit"):
        "Switch off, make sure that nobody can switch on, and show with a tester that there is no voltage before anything is touched."
        | "Ausschalten, sichern, dass niemand einschaltet, und mit dem Prüfer zeigen, dass keine Spannung da ist, ehe etwas berührt wird.";
    "job card" | "Arbeitskarte", ("job card|card", "arbeitskarte|karte"):
        "One sheet for one place, with all that is done there."
        | "Ein Blatt für einen Ort, mit allem, was dort zu tun ist.";
    "leg" | "Pol", ("leg", "pol"):
        "One of the two sides of the bus, plus or minus." | "Eine der beiden Seiten des Busses, Plus oder Minus.";
    "loop resistance" | "Schleifenwiderstand", ("loop resistance|loop", "schleifenwiderstand|schleife"):
        "The resistance of both wires of a cable together, there and back. Read with the far end joined; too high a reading shows a bad joint or a longer cable."
        | "Der Widerstand beider Adern einer Leitung zusammen, hin und zurück. Gemessen mit verbundenem fernem Ende; ein zu großer Wert zeigt eine schlechte Verbindung oder eine längere Leitung.";
    "main earthing terminal" | "Haupterdungsschiene", ("main earthing", "haupterdungsschiene"):
        "The bar in the building at which everything that is earthed comes together."
        | "Die Schiene im Gebäude, an der alles Geerdete zusammenkommt.";
    "management station" | "Zentrale", ("management station", "zentrale"):
        "The station of the concierge or the lodge." | "Die Station des Pförtners oder Hausmeisters.";
    "margin, in hand" | "Reserve", ("margin|in hand", "reserve"):
        "How far a value stays from its limit." | "Wie weit ein Wert von seiner Grenze entfernt bleibt.";
    "nominal" | "nominal, Nennwert", ("nominal", "nominal|nennwert|nennspannung"):
        "As it should be, without any tolerance." | "Wie es sein soll, ohne jede Toleranz.";
    "normally closed, normally open" | "Öffner, Schließer", ("normally closed|normally open", "öffner|schließer"):
        "What a contact does at rest: NC is closed until something happens, NO is open until then; C is the side that both share."
        | "Was ein Kontakt in Ruhe tut: Der Öffner (NC) ist geschlossen, bis etwas geschieht, der Schließer (NO) offen; C ist der gemeinsame Anschluss.";
    "pair" | "Paar", ("pair", "paar"):
        "Two wires of a cable that are twisted together and used together."
        | "Zwei Adern einer Leitung, die miteinander verdrillt sind und zusammen benutzt werden.";
    "polarity" | "Polung", ("polarity", "polung"):
        "Which of two wires is plus and which is minus." | "Welche von zwei Adern Plus und welche Minus ist.";
    "port" | "Abgang", ("port", "abgang|abgänge"):
        "A pair of terminals of a box from which one line goes off."
        | "Ein Klemmenpaar eines Kastens, von dem eine Leitung abgeht.";
    "power return" | "Netzwiederkehr", ("power return", "netzwiederkehr"):
        "The mains come back after a failure, and every device starts at once."
        | "Das Netz kommt nach einem Ausfall wieder, und alle Geräte starten gleichzeitig.";
    "revision" | "Stand", ("revision", "stand"):
        "The letter or number that tells newer papers from older ones."
        | "Der Buchstabe oder die Nummer, an denen neuere Blätter von älteren zu unterscheiden sind.";
    "ripple" | "Welligkeit", ("ripple", "welligkeit"):
        "How unevenly a line carries low and high notes, or the parts of a picture."
        | "Wie ungleich eine Leitung tiefe und hohe Töne oder die Teile eines Bildes überträgt.";
    "riser" | "Steigleitung", ("riser", "steigleitung|steigschacht"):
        "The cable, or its shaft, that goes up through the floors."
        | "Die Leitung, oder ihr Schacht, die durch die Geschosse nach oben führt.";
    "run" | "Strang", ("run ", "strang|stränge"):
        "One line of cable from a port, with all devices on it in their order."
        | "Eine Leitung ab einem Abgang, mit allen Geräten daran in ihrer Reihenfolge.";
    "screen" | "Schirm", ("screen", "schirm|geschirmt"):
        "The metal foil or braid around the wires of a cable. It keeps disturbances out, and is earthed at one end only."
        | "Die Metallfolie oder das Geflecht um die Adern einer Leitung. Er hält Störungen fern und wird nur an einem Ende geerdet.";
    "secure side" | "gesicherte Seite", ("secure side", "gesicherte|gesicherten"):
        "Inside, where a stranger at the door cannot reach it." | "Innen, wo ein Fremder vor der Tür nicht herankommt.";
    "short circuit" | "Kurzschluss", ("short circuit|short-circuit|a short", "kurzschluss|kurzgeschlossen"):
        "Two wires touch that must not. For measuring they are joined on purpose."
        | "Zwei Adern berühren sich, die es nicht dürfen. Zum Messen werden sie mit Absicht verbunden.";
    "snag" | "Mangel", ("snag", "mangel|mängel"):
        "Something that is still to be put right." | "Etwas, das noch in Ordnung zu bringen ist.";
    "standby" | "Ruhe", ("standby", "ruhe"):
        "Everything is on and started, and nobody calls." | "Alles ist eingeschaltet und gestartet, und niemand ruft.";
    "strike, lock" | "Türöffner, Schloss", ("strike", "türöffner"):
        "The part in the door frame that lets the latch go when it gets power, or when it loses it."
        | "Das Teil im Türrahmen, das die Falle freigibt, wenn es Strom bekommt oder verliert.";
    "supply" | "Netzteil", ("supply|supplies", "netzteil"):
        "The device that makes the low direct voltage of the bus from the mains."
        | "Das Gerät, das aus dem Netz die niedrige Gleichspannung des Busses macht.";
    "surge protector" | "Überspannungsschutz", ("surge", "überspannung"):
        "A part that leads the jolt of a near stroke of lightning to earth, before it reaches the devices."
        | "Ein Teil, das den Stoß eines nahen Blitzes zur Erde ableitet, ehe er die Geräte erreicht.";
    "terminator" | "Abschluss", ("terminator", "abschluss hier|abschluss der gerätefamilie"):
        "A resistor at the end of a line that keeps picture and speech from being thrown back."
        | "Ein Widerstand am Ende einer Leitung, der verhindert, dass Bild und Sprache zurückgeworfen werden.";
    "tolerance" | "Toleranz", ("tolerance", "toleranz"):
        "How far a true value may lie from the stated one." | "Wie weit ein wahrer Wert vom angegebenen abweichen darf.";
}
