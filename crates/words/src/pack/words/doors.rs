//! Doors, locks and modules.

/// Hands these rows and those before them on to the next table.
macro_rules! doors {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AcrossContact: "Across the relay's contact" | "Parallel zum Relaiskontakt",
        AcrossLock: "Across the lock" | "Parallel zum Schloss",
        AlternatingCurrent: "alternating current" | "Wechselstrom",
        BusCollapses:
            "not judged: the voltage collapses there"
            | "nicht beurteilt: Die Spannung bricht dort zusammen",
        Buttons: "buttons" | "Tasten",
        CautionAssumed: "Some figures rest on assumed values." | "Einige Werte beruhen auf Annahmen.",
        CautionDiode:
            "Mind the polarity of the diode; never on alternating current."
            | "Polung der Diode beachten; nie an Wechselstrom.",
        CautionDrive:
            "The safety devices of a drive or lift are another trade's work; a contact must not bypass them."
            | "Die Schutzeinrichtungen eines Antriebs oder Aufzugs sind Sache eines anderen Gewerks; ein Kontakt darf sie nicht umgehen.",
        CautionOpens:
            "The coil is energised while the door is shut: it is warm, and the door opens when power fails unless a battery feeds it."
            | "Die Spule steht bei geschlossener Tür unter Strom: Sie ist warm, und die Tür öffnet bei Stromausfall, wenn keine Batterie sie speist.",
        CautionRelayOutdoors:
            "The lock's contact is in the door station, which is outdoors: whoever takes the station off the wall can open the door."
            | "Der Kontakt für das Schloss sitzt in der Türstation, und die hängt im Freien: Wer sie von der Wand nimmt, kann die Tür öffnen.",
        CautionSecureSide:
            "Mount the relay on the secure side of the door."
            | "Das Relais auf der gesicherten Seite der Tür anbringen.",
        CautionWayOut:
            "The way out must work without the bus and without the door station."
            | "Der Fluchtweg muss ohne Bus und ohne Türstation frei sein.",
        ContinuousDuty: "rated for continuous duty" | "für Dauerbetrieb",
        ControlHeight: "Height of the controls" | "Höhe der Bedienelemente",
        Current: "Current" | "Strom",
        CurrentKind: "Kind of current" | "Stromart",
        DelayedEgress: "Delayed egress" | "Verzögerter Ausgang",
        DirectCurrent: "direct current" | "Gleichstrom",
        Door: "Door" | "Tür",
        DoorsTitle: "Door sheets" | "Türdatenblätter",
        DriveInput: "input of the drive or lift" | "Eingang von Antrieb oder Aufzug",
        EitherCurrent: "direct or alternating current" | "Gleich- oder Wechselstrom",
        EmergencyReleaseClosed: "emergency release (normally closed)" | "Nottaster (Öffner)",
        Energised: "Energised" | "Bestromt",
        DecidedBy: "Decided by, on" | "Entschieden von, am",
        NobodyDecided: "not stated who decided it and when: to be asked" | "nicht angegeben, wer das wann entschied: zu erfragen",
        EscapeRoute: "Escape route" | "Fluchtweg",
        ExitButtonNormallyClosed: "exit button (normally closed)" | "Türöffnertaster (Öffner)",
        ExitButtonNormallyOpen: "exit button (normally open)" | "Türöffnertaster (Schließer)",
        FailSafe: "opens without power (fail-safe)" | "öffnet ohne Strom (Ruhestrom)",
        FailSecure: "stays shut without power (fail-secure)" | "bleibt ohne Strom zu (Arbeitsstrom)",
        FeedBus: "from the bus through the relay" | "aus dem Bus über das Relais",
        FeedDryContact:
            "has power of its own, takes a dry contact"
            | "eigene Versorgung, Ansteuerung über potenzialfreien Kontakt",
        FeedMinus: "feed −" | "Speisung −",
        FeedOwnSupply: "from a supply of its own through the relay" | "aus eigenem Netzteil über das Relais",
        FeedPlus: "feed +" | "Speisung +",
        FeedStation: "from the door station's lock output" | "aus dem Schlossausgang der Türstation",
        FireContactClosed: "fire alarm contact (normally closed)" | "Kontakt der BMA (Öffner)",
        FireInterlock: "Fire interlock" | "Brandfallsteuerung",
        GateDrive: "gate drive" | "Torantrieb",
        HighestVoltage: "Highest voltage" | "Größte Spannung",
        HoldTime: "Release time" | "Freigabezeit",
        Keypad: "keypad" | "Codetastatur",
        LiftController: "lift controller" | "Aufzugsteuerung",
        LoopResistance: "Loop resistance" | "Schleifenwiderstand",
        NominalLoopResistance: "Loop resistance, nominal" | "Schleifenwiderstand, nominal",
        LowestVoltage: "Lowest voltage" | "Kleinste Spannung",
        Magnet: "holding magnet" | "Haltemagnet",
        MechanicalEscape: "Mechanical means of escape" | "Mechanische Fluchtmöglichkeit",
        Mind: "Mind" | "Beachten",
        Module: "Module" | "Modul",
        MotorLock: "motor lock" | "Motorschloss",
        NamesModule: "names" | "Namen",
        NominalVoltage: "Nominal voltage" | "Nennwert der Spannung",
        NormallyClosed: "common and normally closed" | "COM (C) und Öffner",
        NormallyOpen: "common and normally open" | "COM (C) und Schließer",
        NotStatedNone: "not stated (counted as none)" | "nicht angegeben (als nicht vorhanden gerechnet)",
        NotStatedNotJudged: "not stated: not judged" | "nicht angegeben: nicht beurteilt",
        NotStatedDefault: "not stated; assumed" | "nicht angegeben; angenommen",
        Nothing: "nothing" | "nichts",
        PowerFrom: "Power" | "Versorgung",
        Reader: "reader" | "Leser",
        RelayContactItem: "Relay wired" | "Relais verdrahtet",
        RelayNormallyClosed: "relay common, normally closed" | "Relais COM (C), Öffner",
        RelayNormallyOpen: "relay common, normally open" | "Relais COM (C), Schließer",
        RelayOnSecureSide: "Relay on the secure side" | "Relais auf der gesicherten Seite",
        RuleToLookAt: "Rule to look at" | "Zu beachtende Regel",
        SetAsPlanned: "as planned" | "wie geplant",
        SetInStation:
            "set in the door station, wins over the plan"
            | "in der Türstation eingestellt, geht dem Plan vor",
        Strike: "strike" | "Türöffner",
        VoltageNotNeeded:
            "none needed: the drive has power of its own"
            | "keine nötig: Der Antrieb hat eigene Versorgung",
        WhileReleased: "while released" | "während der Freigabe",
        WhileShut: "while shut" | "während geschlossen",
        WiringInSeries: "Wired in series" | "In Reihe verdrahtet",
        WithoutPower: "Without power" | "Ohne Strom",
        }
    };
}

pub(super) use doors;
