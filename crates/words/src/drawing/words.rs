//! Words and sentences of drawings that have no argument, by where they stand.

use crate::row::words;

words! {
    /// A word or sentence on drawings without arguments.
    pub enum Word {
        // Title block.
        ApprovedBy: "Approved by" | "Freigegeben von",
        DrawingNumber: "Drawing number" | "Zeichnungsnummer",
        DocumentKind: "Kind of document" | "Dokumentart",
        KindChart: "chart" | "Diagramm",
        KindCircuit: "circuit diagram" | "Stromlaufplan",
        KindInstallation: "installation diagram" | "Installationsplan",
        KindJobCard: "job card" | "Arbeitskarte",
        KindOverview: "overview diagram" | "Übersichtsplan",
        KindSettings: "settings" | "Einstellplan",
        DrawnBy: "Drawn by" | "Gezeichnet von",
        InputHash: "Input, SHA-256" | "Eingabe, SHA-256",
        Owner: "Owner" | "Eigentümer",
        Date: "Date" | "Datum",
        NotStated: "not stated" | "nicht angegeben",
        Revision: "Revision" | "Stand",
        Sheet: "Sheet" | "Blatt",
        UntitledSite: "Untitled site" | "Anlage ohne Titel",
        VerdictAssumed: "holds, on assumed values" | "eingehalten, auf Grundlage von Annahmen",
        VerdictFails: "fails" | "nicht eingehalten",
        VerdictFailsAsAccepted: "fails, with every error accepted" | "nicht eingehalten, jeder Fehler akzeptiert",
        VerdictHolds: "holds" | "eingehalten",
        VerdictNotJudged: "nothing failed, but not all was judged" | "nichts verletzt, aber nicht alles beurteilt",
        // Reach.
        ReachSubject: "Reach" | "Reichweite",
        ForPlanning:
            "For planning; check the site itself. Not a certificate."
            | "Zur Planung; die Anlage selbst prüfen. Kein Prüfzeugnis.",
        // Severities.
        Advice: "advice" | "Hinweis",
        Error: "error" | "Fehler",
        Warning: "warning" | "Warnung",
        // Elevation.
        AudioStation: "audio station" | "Audiostation",
        BelowLimit: "below the limit" | "unter dem Grenzwert",
        BranchBox: "branch box" | "Abzweigdose",
        CoreNotStated: "no core stated" | "ohne Treppenhaus",
        CrossingLines: "lines that cross are not joined" | "kreuzende Linien sind nicht verbunden",
        Distributor: "distributor" | "Verteiler",
        DoorStation: "door station" | "Türstation",
        Elevation: "elevation" | "Strangschema",
        ElevationSubject: "Elevation with runs and voltages" | "Strangschema mit Spannungen",
        FloorNotStated: "floor not stated" | "ohne Geschoss",
        FurtherRuns: "further runs:" | "weitere Stränge:",
        LowestVoltage: "V: lowest, in the worst state" | "V: kleinste, im ungünstigsten Zustand",
        ManagementStation: "management station" | "Zentrale",
        MarginMeaning: "+ V: margin to its limit" | "+ V: Reserve zum Grenzwert",
        MatchLine: "continues on another sheet" | "weiter auf anderem Blatt",
        NoOperatingPoint: "the voltage collapses" | "Spannung bricht zusammen",
        NoVoltage: "no voltage" | "keine Spannung",
        NothingStands: "Nothing stands on this site yet." | "In dieser Anlage steht noch nichts.",
        Outdoors: "Outdoors" | "Außen",
        PlaceNotStated: "Place not stated" | "Ohne Ort",
        Run: "run" | "Strang",
        RunExisting: "run, cable already in place" | "Strang, Leitung liegt bereits",
        RunToBox: "run to a box" | "Strang zu einer Dose oder einem Verteiler",
        RunToBoxExisting:
            "run to a box, cable already in place"
            | "Strang zu Dose oder Verteiler, Leitung liegt bereits",
        Supply: "supply" | "Netzteil",
        VideoStation: "video station" | "Videostation",
        // Overview.
        LinksBetweenBuildings: "Links between buildings" | "Verbindungen zwischen Gebäuden",
        MainEntrance: "main entrance" | "Haupteingang",
        NotProtected: "no surge protector" | "ohne Überspannungsschutz",
        OutsideBuildings: "Outside the buildings" | "Außerhalb der Gebäude",
        OverviewSubject: "Overview: the whole system as blocks" | "Übersicht: die ganze Anlage als Blöcke",
        OverviewWhat: "overview" | "Übersicht",
        ProtectedAtBothEnds: "surge protectors at both ends" | "Überspannungsschutz an beiden Enden",
        ProtectedAtOneEnd: "surge protector at one end" | "Überspannungsschutz an einem Ende",
        WayBuried: "in the ground" | "im Erdreich",
        WayIndoors: "indoors" | "im Gebäude",
        WayOutdoors: "outdoors" | "im Freien",
        // Profiles.
        AdverseCurve:
            "every tolerance at its worst, each device in its worst state"
            | "alle Toleranzen ungünstigst, jedes Gerät im ungünstigsten Zustand",
        CausePlanned: "as planned, least to most" | "wie geplant, kleinste bis größte",
        CauseVoltage: "with the likeliest cause; thin: with the sizes that are possible"
            | "mit der wahrscheinlichsten Ursache; dünn: mit den möglichen Größen",
        CoursesSubject: "Voltage along the way, planned and read" | "Spannung entlang des Wegs, geplant und gemessen",
        FeetFromSource: "ft from the source" | "ft ab der Quelle",
        LimitLine: "limit" | "Grenzwert",
        MetresFromSource: "m from the source" | "m ab der Quelle",
        NominalCurve: "the same state with nominal values" | "derselbe Zustand mit Nennwerten",
        NoProfile:
            "No run reaches a device with a voltage limit."
            | "Kein Strang erreicht ein Gerät mit einem Grenzwert der Spannung.",
        Profiles: "voltage along each run" | "Spannung entlang jedes Strangs",
        ProfilesSubject: "Voltage along each run" | "Spannung entlang jedes Strangs",
        // Signal and power return.
        Holds: "holds" | "reicht",
        Loss: "loss, dB" | "Dämpfung, dB",
        NoPowerReturn: "Power return was not judged." | "Die Netzwiederkehr wurde nicht beurteilt.",
        NoCourse: "No way to follow: no run is concerned." | "Kein Weg zu verfolgen: kein Strang ist betroffen.",
        NoShares: "Nothing was told or read." | "Nichts wurde berichtet oder gemessen.",
        ProbabilityAxis: "probability, %" | "Wahrscheinlichkeit, %",
        ReadVoltage: "read, with the meter's error" | "gemessen, mit dem Fehler des Messgeräts",
        SharesSubject: "How the probabilities moved" | "Wie sich die Wahrscheinlichkeiten bewegten",
        StepAxis: "step" | "Schritt",
        SuspectsSubject: "Elevation: where to look" | "Strangschema: wo zu suchen ist",
        NoSignal: "The signal was not judged." | "Das Signal wurde nicht beurteilt.",
        NotEveryDip:
            "Too few frequencies were calculated to be sure that no dip was missed."
            | "Zu wenige Frequenzen gerechnet, um keinen Einbruch zu übersehen.",
        SignalSubject: "Signal at the weakest station" | "Signal an der schwächsten Station",
        StartUpSubject: "Bus voltage when power returns" | "Busspannung bei Netzwiederkehr",
        Time: "time, s" | "Zeit, s",
        TooWeak: "too weak" | "zu schwach",
        Undecided:
            "still going on and off at the end of the calculated time"
            | "am Ende der gerechneten Zeit noch nicht zur Ruhe gekommen",
        Voltage: "voltage, V" | "Spannung, V",
        // Switches.
        Hundreds: "hundreds" | "Hunderter",
        Tens: "tens" | "Zehner",
        Units: "units" | "Einer",
        HighDigit: "high digit" | "obere Stelle",
        LowDigit: "low digit" | "untere Stelle",
        AllOff: "all off" | "alle aus",
        FieldBuilding: "building" | "Gebäude",
        FieldDwelling: "dwelling" | "Wohnung",
        FieldEntrance: "entrance" | "Eingang",
        FieldExtension: "extension" | "Nebenstelle",
        FieldManagement: "management" | "Zentrale",
        JumperFitted: "fitted" | "gesteckt",
        JumperOpen: "open" | "offen",
        KeyIn: "key in" | "eintippen",
        LatchedAtPowerUp:
            "Settings are read at power-up: switch the bus off and on after a change."
            | "Wird nur beim Einschalten gelesen: nach einer Änderung Bus aus und ein.",
        SwitchSettings: "switch settings" | "Schalterstellungen",
        SwitchSubject:
            "Switch settings, at true scale when printed without scaling"
            | "Schalterstellungen, in wahrer Größe, wenn ohne Anpassung gedruckt",
        // Wiring of locks and alarm inputs.
        AtDoorStation: "door station" | "Türstation",
        BarToPlus: "bar to plus" | "Ring (Kathode) an Plus",
        BusAtThe: "bus at the" | "Bus an der",
        Clamp: "clamp" | "Suppressor\u{ad}diode",
        ClosedAtRest: "closed at rest" | "in Ruhe geschlossen",
        ClosedWhileShut: "closed while shut" | "geschlossen, solange zu",
        CoilOnToRelease: "coil on to release" | "Spule an zum Freigeben",
        CoilOnWhileShut: "coil on while shut" | "Spule an, solange zu",
        Diode: "diode" | "Diode",
        DoorContact: "door contact" | "Türkontakt",
        Drive: "drive" | "Antrieb",
        DriveInput: "input of the drive or lift" | "Eingang von Antrieb oder Aufzug",
        DryContact:
            "dry contact for a system with power of its own"
            | "potenzialfrei für eine Anlage mit eigener Versorgung",
        DuressButton: "duress button" | "Überfalltaster",
        EmergencyRelease: "emergency release" | "Nottaster",
        ExitButton: "exit button" | "Türöffner\u{ad}taster",
        Feed: "feed" | "Speisung",
        Fire: "FIRE" | "BRAND",
        FireContact: "fire alarm contact" | "Kontakt der BMA",
        CommandOfRelay:
            "its command, from the door station; marks, conductors and power of its own: see its maker's sheet"
            | "sein Befehl, von der Türstation; Klemmenzeichen, Aderzahl und eigene Speisung: siehe Blatt des Herstellers",
        InDoorStation: "in the door station" | "in der Türstation",
        InputOf: "input of" | "Eingang",
        ItsOwn: "its own" | "Netzteil",
        ItsCoil: "its coil" | "seine Spule",
        ItsSuppressor:
            "diode across, bar at A1, unless built in"
            | "Diode parallel, Ring an A1, falls nicht eingebaut",
        Lock: "lock" | "Schloss",
        LoopsToContacts:
            "loops from the door station's inputs to their contacts"
            | "Schleifen von den Eingängen der Türstation zu den Kontakten",
        Magnet: "magnet" | "Haltemagnet",
        Lift: "lift controller" | "Aufzugsteuerung",
        MotorLock: "motor lock" | "Motorschloss",
        NormallyClosed: "normally closed" | "Öffner",
        NormallyOpen: "normally open" | "Schließer",
        OfTheDrive: "the drive" | "des Antriebs",
        OfTheLift: "the lift" | "des Aufzugs",
        OpenAtRest: "open at rest" | "in Ruhe offen",
        OpensToRelease: "opens to release" | "öffnet zum Freigeben",
        OpensWithoutPower:
            "opens without power: contacts in series, closed while shut"
            | "öffnet ohne Strom: Kontakte in Reihe, in Ruhe geschlossen",
        RelayBetween: "relay in between" | "Koppelrelais",
        ReleasesLocks: "releases the locks" | "gibt die Schlösser frei",
        ResistorAtContact: "resistor at the contact" | "Widerstand am Kontakt",
        StaysShutWithoutPower:
            "stays shut without power: a contact closes to release"
            | "bleibt ohne Strom zu: ein Kontakt schließt zum Freigeben",
        Strike: "strike" | "Türöffner",
        SupplyOf: "supply of" | "eigenes",
        SecondFireContact:
            "a second contact, beside that of the lock's circuit"
            | "ein zweiter Kontakt, neben dem im Schlosskreis",
        TamperContact: "tamper contact" | "Sabotagekontakt",
        ToItsInput: "to its input" | "zum Eingang",
        Varistor: "varistor" | "Varistor",
        WiringNote:
            "Isolate, prove dead. Escape: the responsible person decides."
            | "Freischalten, prüfen. Fluchtwege: verantwortliche Person.",
        WiringSubject:
            "Locks and alarm inputs, contacts at rest; dots: connectors"
            | "Schlösser und Meldeeingänge in Ruhe; Punkte: Klemmen",
        WiringWhat: "wiring of locks and alarm inputs" | "Verdrahtung der Schlösser und Meldeeingänge",
    }
}
