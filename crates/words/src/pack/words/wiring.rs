//! Wiring, cables and cutting.

/// Hands these rows and those before them on to the next table.
macro_rules! wiring {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AsBuiltNote:
            "As built: what came out differently on site is written into the columns for it, and goes to the office with this sheet. What stays empty is as planned."
            | "Wie gebaut: Was auf der Baustelle anders wurde, kommt in die Spalten dafür und mit diesem Blatt ins Büro. Was leer bleibt, ist wie geplant.",
        BesideMains: "shares its route with mains: separate it" | "läuft neben Netzleitungen: trennen",
        Buried: "in the ground" | "im Erdreich",
        BatteryByItsLeads:
            "battery of the supply, by its own leads and fuse"
            | "Batterie des Netzteils, mit eigenen Leitungen und Sicherung",
        BatteryWithFuse:
            "battery, with the fuse in its plus lead"
            | "Batterie, mit der Sicherung in ihrer Plusleitung",
        BreaksNothing:
            "stays free: this lock stays shut without power, so a break cannot release it"
            | "bleibt frei: Dieses Schloss bleibt ohne Strom zu, eine Unterbrechung gibt es nicht frei",
        CableNotStated:
            "cable not stated in the plan: choose it and write down type and length"
            | "Leitung steht nicht im Plan: wählen, Typ und Länge notieren",
        CableEnd: "Cable" | "Leitung",
        CablesTitle: "Cable list" | "Leitungsliste",
        Colour: "Colour" | "Farbe",
        ColourConvention:
            "Colours by IEC 60757: those of the catalogue, where it names them or the code that the cable follows; else by convention: two-core flexible BN/BU (HD 308 S2), four pairs AWG as ANSI/TIA-568, else WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). If the cable has others, write down what was used, in its column."
            | "Farben nach IEC 60757: die des Katalogs, wo er sie oder den Farbcode der Leitung nennt; sonst nach Übereinkunft: zweiadrig flexibel BN/BU (HD 308 S2), vier Paare AWG wie ANSI/TIA-568, sonst WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). Hat die Leitung andere, das Verwendete in seiner Spalte notieren.",
        ColourUsed: "Colour used" | "Farbe verwendet",
        ConductorSize: "Conductor" | "Ader",
        ConnectorConvention:
            "A connector joins conductors of a door's circuit where more than two meet, or two away from any terminal (common practice). It sits beside the relay that has a cable of its own (in between, or on the secure side), where there is one, and never at the panel then: whoever bridges it opens the door. Else it sits beside the door station. If the maker's sheet shows other terminals, follow that and note it here."
            | "Eine Verbindungsklemme verbindet Adern im Stromkreis einer Tür, wo mehr als zwei zusammentreffen, oder zwei abseits einer Klemme (üblich). Sie sitzt beim Relais mit eigener Leitung (Koppelrelais oder Relais auf der gesicherten Seite), wo es eines gibt, und dann nie am Tableau: Wer sie überbrückt, öffnet die Tür. Sonst sitzt sie bei der Türstation. Zeigt das Blatt des Herstellers andere Klemmen, gilt dieses: hier vermerken.",
        CutBoundMeaning:
            "Where a cable says that no cutting plan buys less, that was proved for these lengths and drums."
            | "Wo bei einer Leitung steht, dass kein Schnittplan weniger kauft, ist das für diese Längen und Trommeln bewiesen.",
        CutLength: "Cut to" | "Ablängen auf",
        CutListTitle: "Cut list" | "Zuschnittliste",
        Device: "Device" | "Gerät",
        Drum: "Drum" | "Trommel",
        DrumLength: "Length of drum" | "Trommellänge",
        EarthConductor: "earth conductor" | "Erdungsleiter",
        EndOfChain: "end of the chain, stays empty" | "Ende der Kette, bleibt frei",
        ExistingColours:
            "existing cable: write down the colour found"
            | "vorhandene Leitung: vorgefundene Farbe notieren",
        ExistingColoursOfCode:
            "existing cable: write down the colour found; in brackets what the catalogue's code has"
            | "vorhandene Leitung: vorgefundene Farbe notieren; in Klammern die des Farbcodes im Katalog",
        GoesTo: "Other end" | "Anderes Ende",
        HasJoints: "has joints on the way" | "hat Verbindungen unterwegs",
        InTheWalls: "in the walls already" | "liegt bereits",
        Indoors: "indoors" | "innen",
        LabelConvention:
            "Each end of a cable carries its designation, then this end, then the other one, as the columns From and To have them: \"W1 | A:1 > B:in\" at the one, \"W1 | B:in > A:1\" at the other (device, colon, terminal, in the manner of IEC 81346 and IEC 61666). The label sheets have every one."
            | "Jedes Ende einer Leitung trägt ihre Bezeichnung, dann dieses Ende, dann das andere, wie in den Spalten Von und Nach: „W1 | A:1 > B:Ein“ am einen, „W1 | B:Ein > A:1“ am anderen (Gerät, Doppelpunkt, Klemme, in der Art von IEC 81346 und IEC 61666). Die Etikettenbogen haben sie alle.",
        LeftOnDrum: "Left on drum" | "Rest auf Trommel",
        Leg: "Leg" | "Pol",
        LegsConvention:
            "Legs are kept apart as + and − throughout, also where a device works either way round."
            | "Die Pole werden durchgehend als + und − getrennt, auch wo ein Gerät beliebig gepolt arbeitet.",
        LengthLaid: "Length laid" | "Länge verlegt",
        LockFedElsewhere:
            "stays free: the lock takes its power elsewhere"
            | "bleibt frei: Das Schloss wird anders gespeist",
        LongerThanAnyDrum: "none so long" | "keine so lang",
        MainEarthBar: "main earthing terminal" | "Haupterdungsschiene",
        MainsByElectrician:
            "mains: by a licensed electrician, not part of this schedule"
            | "Netz: durch eine Elektrofachkraft, nicht Teil dieses Plans",
        NeverCutInTwo:
            "No length between two terminals is cut in two: no joints are added."
            | "Keine Länge zwischen zwei Klemmen wird geteilt: Es kommen keine Verbindungen hinzu.",
        NoFurtherModule: "no further module" | "kein weiteres Modul",
        NotUsedByLock: "stays free: not used by this lock" | "bleibt frei: für dieses Schloss nicht benutzt",
        NothingLeadsHere: "nothing leads here" | "nichts führt hierher",
        OutsideThePlan:
            "an input outside this plan: write down which"
            | "ein Eingang außerhalb dieses Plans: notieren, welcher",
        OutsideEnd: "a device outside this plan" | "ein Gerät außerhalb des Plans",
        OwnLead: "its own lead" | "eigene Leitung",
        Pair: "Pair" | "Paar",
        PairUsed: "Pair used" | "Paar benutzt",
        PairsSpare: "Pairs spare" | "Paare frei",
        PairsUsed: "Pairs used" | "Paare belegt",
        CoilNeedsSuppressor:
            "coil on direct current: a diode across it, bar at A1, unless the relay has one built in (common practice)"
            | "Spule an Gleichstrom: Diode parallel, Ring an A1, sofern das Relais keine eingebaut hat (üblich)",
        CommandOfRelay:
            "command of the relay on the secure side: marks, number of conductors and its own power as its maker's sheet has them; write down what was used"
            | "Befehl an das Relais auf der gesicherten Seite: Klemmenzeichen, Aderzahl und eigene Speisung nach dem Blatt seines Herstellers; Verwendetes notieren",
        ContactLeftFree:
            "stays free: the relay on the secure side releases this lock"
            | "bleibt frei: Das Relais auf der gesicherten Seite gibt dieses Schloss frei",
        RunsWhere: "Runs" | "Verlegt",
        ScreenOfCable: "screen of the cable" | "Schirm der Leitung",
        ScreenEarthed:
            "screen: to earth at this end, and at this end only"
            | "Schirm: an diesem Ende erden, und nur an diesem",
        ScreenInsulated:
            "screen: cut back and insulate"
            | "Schirm: zurückschneiden und isolieren",
        ScreenJoinedOn:
            "screen: join to that of the next cable, insulated from all else"
            | "Schirm: mit dem der nächsten Leitung verbinden, sonst isoliert",
        ScreenConvention:
            "Screened cable: join the screen at the end nearer to the supply, insulate it at the other (common practice)."
            | "Geschirmte Leitung: Schirm am netzteilseitigen Ende anschließen, am anderen isolieren (üblich).",
        Screened: "screened" | "geschirmt",
        SeveralCables:
            "several cables side by side: pull and label each"
            | "mehrere Leitungen nebeneinander: jede ziehen und beschriften",
        ShortWire: "short wire" | "Drahtbrücke",
        SurgeProtectorItem: "surge protector" | "Überspannungsschutz",
        SurgeProtectorAtEnd: "surge protector at its end" | "Überspannungsschutz am Ende",
        SurgeProtectorAtStart: "surge protector at its start" | "Überspannungsschutz am Anfang",
        TerminatorHere: "terminator set here" | "Abschluss hier gesetzt",
        To: "To" | "Nach",
        ToMainEarth:
            "by the shortest way, green-and-yellow, cross-section assumed; by a licensed electrician"
            | "auf kürzestem Weg, grün-gelb, Querschnitt angenommen; durch eine Elektrofachkraft",
        ToMainEarthAsStated:
            "by the shortest way, green-and-yellow; by a licensed electrician"
            | "auf kürzestem Weg, grün-gelb; durch eine Elektrofachkraft",
        TypeLaid: "Type laid" | "Typ verlegt",
        WiringTitle: "Wiring schedule, terminal by terminal" | "Klemmenplan",
        }
    };
}

pub(super) use wiring;
