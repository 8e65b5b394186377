//! Publications, and what they ask for in short.

use crate::row::words;

words! {
    /// A publication with how its figures are known: by itself, as quoted by somebody else, or from memory (then the reader is
    /// asked to check the edition in force).
    pub enum Publication {
        // Locks on escape routes.
        En179: "EN 179" | same,
        En1125: "EN 1125" | same,
        En13637: "EN 13637 (check the edition in force)" | "EN 13637 (gültige Ausgabe prüfen)",
        IbcSensor: "IBC 2015 1010.1.9.8, NFPA 101 7.2.1.6.2" | same,
        Nfpa101Delay: "NFPA 101 7.2.1.6.1" | same,
        CommonPractice:
            "the rules of the country (here common practice, no source)"
            | "den Regeln des Landes (hier übliche Praxis, ohne Quelle)",
        // Heights of controls.
        Ada:
            "2010 ADA Standards 308.2.1 and 308.3.1, unobstructed reach"
            | "2010 ADA Standards 308.2.1 und 308.3.1, Reichweite ohne Hindernis",
        ApprovedDocumentM:
            "Approved Document M volume 1 (England), M4(2) and M4(3) (check the edition in force)"
            | "Approved Document M, Band 1 (England), M4(2) und M4(3) (gültige Ausgabe prüfen)",
        Dm236: "DM 236/1989, entry phones, as quoted" | "DM 236/1989, Türsprechstellen, nach Zitat",
        Din18040: "DIN 18040-2 (check the edition in force)" | "DIN 18040-2 (gültige Ausgabe prüfen)",
        FrenchOrder:
            "order of 24 December 2015 on dwellings, as quoted"
            | "Erlass vom 24. Dezember 2015 über Wohnungen, nach Zitat",
        Sia500: "SIA 500 section 9.6.1, as quoted" | "SIA 500, Abschnitt 9.6.1, nach Zitat",
        Tek17:
            "advice on TEK17 for dwellings, bell panels, as quoted"
            | "Hinweise zu TEK17 für Wohnungen, Klingeltableaus, nach Zitat",
        Iso21542: "ISO 21542 (check the edition in force)" | "ISO 21542 (gültige Ausgabe prüfen)",
        CteDbSua:
            "CTE DB SUA, accessible controls (check the edition in force)"
            | "CTE DB SUA, barrierefreie Bedienelemente (gültige Ausgabe prüfen)",
        As14281: "AS 1428.1, touch pads, as quoted" | "AS 1428.1, Tastflächen, nach Zitat",
    }
}

words! {
    /// What a publication asks of locks on escape routes.
    pub enum EscapeDemand {
        KnownDoor:
            "emergency exits used by people who know the door: lever handle or push pad, one action, no key"
            | "Notausgänge für Ortskundige: Drücker oder Stoßplatte, ein Griff, kein Schlüssel",
        Panic:
            "panic exits open to the public: a horizontal bar that releases under the push of a crowd"
            | "Paniktüren für Ortsunkundige: waagerechte Stange, die unter dem Druck einer Menge freigibt",
        ElectricallyControlled:
            "electrically controlled escape doors: a release terminal at the door, release on power loss and on fire alarm; a time delay in stages of 15 s and 180 s only where the authority allows it"
            | "elektrisch gesteuerte Fluchttüren: Freigabeterminal an der Tür, Freigabe bei Stromausfall und Brandalarm; Verzögerung in Stufen von 15 s und 180 s nur, wo die Behörde sie erlaubt",
        SensorReleased:
            "sensor-released locks: unlock on the sensor, on loss of power and on fire alarm; a marked button 1016 to 1219 mm high within 1525 mm of the door unlocks for 30 s independently of the entry system"
            | "sensorgesteuerte Schlösser: Freigabe durch Sensor, bei Stromausfall und Brandalarm; ein beschrifteter Taster in 1016 bis 1219 mm Höhe, höchstens 1525 mm von der Tür, gibt unabhängig von der Anlage 30 s frei",
        Delayed:
            "delayed egress: release within 15 s (30 s if the authority allows) of a push of at most 67 N held at most 3 s; unlock on fire alarm and on loss of power"
            | "verzögerter Ausgang: Freigabe binnen 15 s (30 s, wenn die Behörde es erlaubt) nach einem Druck von höchstens 67 N über höchstens 3 s; Freigabe bei Brandalarm und Stromausfall",
        OneAction:
            "the door opens from inside with one action, without a key, without power and without the entry system"
            | "die Tür öffnet von innen mit einem Griff, ohne Schlüssel, ohne Strom und ohne die Anlage",
    }
}

words! {
    /// What else a publication asks of a door panel.
    pub enum PanelAdvice {
        Obstruction:
            "beyond an obstruction deeper than 0.51 m at most 1.12 m (308.2.2); with one hand, at most 22 N (309.4; check the edition in force)"
            | "hinter einem Hindernis von mehr als 0,51 m höchstens 1,12 m (308.2.2); mit einer Hand, höchstens 22 N (309.4; gültige Ausgabe prüfen)",
        ReturnCorner:
            "at least 0.3 m from an external return corner (check the edition in force); in buildings other than dwellings 0.75 m to 1.20 m (volume 2, 4.30, as quoted)"
            | "mindestens 0,3 m von einer Außenecke (gültige Ausgabe prüfen); in anderen als Wohngebäuden 0,75 m bis 1,20 m (Band 2, 4.30, nach Zitat)",
        BellPushes:
            "bell pushes 0.40 m to 1.40 m (the same, as quoted)"
            | "Klingeltaster 0,40 m bis 1,40 m (ebenda, nach Zitat)",
        InnerCorner:
            "more than 0.40 m from an inner corner; signals by sound and by sight (the same, as quoted)"
            | "mehr als 0,40 m von einer Innenecke; Signale hörbar und sichtbar (ebenda, nach Zitat)",
        NotInCorner:
            "not in a corner; a prompt to speak that can be seen (the same, as quoted)"
            | "nicht in einer Ecke; sichtbare Sprechaufforderung (ebenda, nach Zitat)",
        Wheelchair:
            "usable from a wheelchair (TEK17 section 12-4, guidance)"
            | "vom Rollstuhl aus bedienbar (TEK17, Abschnitt 12-4, Anleitung)",
        ActiveShown:
            "shows by sound and by sight that it is active and connected; the key 5 can be felt (BR18 section 160)"
            | "zeigt hörbar und sichtbar, dass sie eingeschaltet und verbunden ist; die Taste 5 ist tastbar (BR18, Abschnitt 160)",
    }
}
