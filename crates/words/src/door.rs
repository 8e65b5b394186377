//! What stands at a door: locks, feeds, contacts, modules, lights, alarms.

use crate::row::words;

words! {
    /// A word for a part of a door or for how it is.
    pub enum DoorWord {
        // Locks.
        Strike: "strike" | "Türöffner",
        Magnet: "magnet" | "Haltemagnet",
        MotorLock: "motor lock" | "Motorschloss",
        GateDrive: "gate drive" | "Torantrieb",
        LiftController: "lift controller" | "Aufzugsteuerung",
        FailSafe: "opens without power (fail-safe)" | "öffnet ohne Strom (Ruhestrom)",
        FailSecure: "stays shut without power (fail-secure)" | "bleibt ohne Strom zu (Arbeitsstrom)",
        DirectCurrent: "direct current" | "Gleichstrom",
        AlternatingCurrent: "alternating current" | "Wechselstrom",
        EitherCurrent: "direct or alternating current" | "Gleich- oder Wechselstrom",
        FeedStation: "from the door station's lock output" | "aus dem Schlossausgang der Türstation",
        FeedBus: "from the bus through the relay" | "aus dem Bus über das Relais",
        FeedOwnSupply: "from a supply of its own through the relay" | "aus eigenem Netzteil über das Relais",
        FeedDryContact:
            "has power of its own, takes a dry contact"
            | "eigene Versorgung, Ansteuerung über potenzialfreien Kontakt",
        // Contacts and what lies across them.
        CommonAndOpen: "common and normally open" | "COM (C) und Schließer",
        CommonAndClosed: "common and normally closed" | "COM (C) und Öffner",
        NormallyOpen: "normally open" | "in Ruhe offen",
        NormallyClosed: "normally closed" | "in Ruhe geschlossen",
        Nothing: "nothing" | "nichts",
        Diode: "diode, cathode to plus" | "Diode, Kathode an Plus",
        Clamp: "clamp" | "Suppressordiode",
        Varistor: "varistor" | "Varistor",
        // Modules, lights, alarms.
        Keypad: "keypad" | "Codetastatur",
        Reader: "reader" | "Leser",
        Buttons: "buttons" | "Tasten",
        Names: "names" | "Namen",
        ButtonLight: "button light" | "Tastenbeleuchtung",
        NameLight: "name light" | "Namensbeleuchtung",
        PorchLight: "porch light" | "Außenleuchte",
        FromStation: "door station" | "Türstation",
        FromBus: "bus" | "Bus",
        FromOwnSupply: "supply of its own" | "eigenes Netzteil",
        AtNight: "at night" | "bei Nacht",
        Always: "always" | "immer",
        InUse: "in use" | "bei Benutzung",
        Tamper: "tamper" | "Sabotage",
        Duress: "duress, silent" | "Überfall, still",
        DoorOpen: "door open" | "Tür offen",
        FireAlarm: "fire alarm" | "Brandmeldeanlage (BMA)",
        // Parts of the standby load.
        Station: "door station" | "Türstation",
        Illumination: "its illumination" | "ihre Beleuchtung",
        Heater: "its heater" | "ihre Heizung",
        HeldLocks: "locks held shut" | "zugehaltene Schlösser",
        ReleasedLocks: "locks released" | "freigegebene Schlösser",
        Module: "module" | "Modul",
        Light: "light" | "Leuchte",
        AlarmLoops: "alarm loops" | "Meldeschleifen",
        // The circuit of a lock, element by element.
        FeedAlternating: "feed ~" | "Speisung ~",
        FeedPlus: "feed +" | "Speisung +",
        FeedMinus: "feed -" | "Speisung -",
        RelayOpen: "relay common, normally open" | "Relais COM (C), Schließer",
        RelayClosed: "relay common, normally closed" | "Relais COM (C), Öffner",
        RelayBetween: "relay in between, common, normally open" | "Koppelrelais, COM (C), Schließer",
        ExitButtonOpen: "exit button (normally open)" | "Türöffnertaster (Schließer)",
        ExitButtonClosed: "exit button (normally closed)" | "Türöffnertaster (Öffner)",
        EmergencyRelease: "emergency release (normally closed)" | "Nottaster (Öffner)",
        FireInterlock: "fire alarm contact (normally closed)" | "Kontakt der BMA (Öffner)",
        Lock: "lock" | "Schloss",
        DriveInput: "its input" | "sein Eingang",
        // Parts of that circuit with a cable of their own.
        PartExitButton: "exit button" | "Türöffnertaster",
        PartEmergencyRelease: "emergency release" | "Nottaster",
        PartFireContact: "fire alarm contact" | "Kontakt der BMA",
        PartDoorContact: "door contact" | "Türkontakt",
        PartRelay: "relay" | "Relais",
        PartRelayBetween: "relay in between" | "Koppelrelais",
        PartRelaySecure: "relay on the secure side" | "Relais auf der gesicherten Seite",
        PartSupply: "supply of its own" | "eigenes Netzteil",
        // What must be minded.
        IsolateAndProveDead:
            "Isolate and prove dead before wiring; mains work by licensed people."
            | "Vor dem Verdrahten freischalten und Spannungsfreiheit feststellen; am Netz arbeiten nur dazu berechtigte Personen.",
        KeepApartFromMains:
            "Keep extra-low voltage apart from mains."
            | "Kleinspannung von Netzspannung getrennt führen.",
        ResponsiblePersonDecides:
            "Release on an escape route and the fire interlock are decided by the responsible person; local codes prevail."
            | "Über die Freigabe am Fluchtweg und die Brandfallsteuerung entscheidet die verantwortliche Person; örtliche Vorschriften gehen vor.",
        WayOutWithoutBus:
            "The way out must work without the bus and without the door station."
            | "Der Fluchtweg muss ohne Bus und ohne Türstation frei sein.",
        RelayOnSecureSide:
            "Mount the relay on the secure side of the door."
            | "Das Relais auf der gesicherten Seite der Tür anbringen.",
        RelayInStationOutdoors:
            "The lock's contact is in the door station, which is outdoors: whoever takes the station off the wall can open the door."
            | "Der Kontakt für das Schloss sitzt in der Türstation, und die hängt im Freien: Wer sie von der Wand nimmt, kann die Tür öffnen.",
        DiodePolarity:
            "Mind the diode's polarity; never on alternating current."
            | "Polung der Diode beachten; nie an Wechselstrom.",
        OpensOnPowerFailure:
            "The coil is energised while the door is shut: it is warm, and the door opens when power fails unless a battery feeds it."
            | "Die Spule steht bei geschlossener Tür unter Strom: Sie ist warm, und die Tür öffnet bei Stromausfall, wenn keine Batterie sie speist.",
        DriveSafety:
            "The safety devices of a drive or lift are another trade's work; a contact must not bypass them."
            | "Die Schutzeinrichtungen eines Antriebs oder Aufzugs sind Sache eines anderen Gewerks; ein Kontakt darf sie nicht umgehen.",
        RestsOnAssumedValues: "Some figures rest on assumed values." | "Einige Werte beruhen auf Annahmen.",
    }
}
