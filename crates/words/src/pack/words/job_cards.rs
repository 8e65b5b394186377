//! Job cards and the order of work.

/// Hands these rows and those before them on to the next table.
macro_rules! job_cards {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        BriefBatteryOff: "battery disconnected" | "Batterie abgeklemmt",
        BriefBatteryOn: "battery connected" | "Batterie angeklemmt",
        BriefBatteryAtRest: "Before connecting (lead)" | "Vor Anklemmen (Blei)",
        BriefFireDisabled: "Disabled by owner: who, when" | "Abgeschaltet: wer, wann",
        BriefOnBattery: "On battery; then mains on" | "Auf Batterie; dann Netz ein",
        BriefConnectLock: "mains off, proved dead, lock connected, mains on" | "Netz aus, spannungsfrei, Schloss dran, Netz ein",
        BriefDelayWithoutPower: "no delay without power" | "ohne Strom keine Verzögerung",
        BriefDriveLeft: "no command, stays as it is; owner tries own controls" | "kein Befehl, bleibt wie es ist; Eigentümer probiert Bedienung",
        BriefForeignVoltage: "no foreign voltage" | "keine Fremdspannung",
        BriefLockOff: "door lock not on this output" | "Schloss von diesem Ausgang ab",
        BriefOwnerOn: "back in service by its owner" | "vom Eigentümer in Betrieb",
        BriefWiredSupply: "wired, lock left off, no short" | "verdrahtet, Schloss noch ab, kein Kurzschluss",
        BriefWiredToOwner: "wired, no short; joined by its owner" | "verdrahtet, kein Kurzschluss; Eigentümer schließt an",
        BriefCapacitance: "Capacitance" | "Kapazität",
        BriefConnected: "run connected" | "Strang angeschlossen",
        BriefCurrent: "Current" | "Strom",
        BriefDead: "proved dead" | "Spannungsfreiheit festgestellt",
        BriefEmergency: "emergency release" | "Nottaster",
        BriefEscape: "opens from inside with the system off" | "öffnet von innen bei ausgeschalteter Anlage",
        BriefExit: "exit button" | "Türöffnertaster",
        BriefInsulation: "Insulation" | "Isolation",
        BriefInsulationOld:
            "Insul., ohmmeter: no insulation tester until every flat on it is seen disconnected"
            | "Isol., Ohmmeter: kein Isolationsmessgerät, bis jede Wohnung daran sichtbar abgeklemmt ist",
        BriefLoop: "Loop" | "Schleife",
        BriefMounted: "wired" | "verdrahtet",
        BriefNoShort: "no short" | "kein Kurzschluss",
        BriefOpenCircuit: "No load" | "Leerlauf",
        BriefPluggedIn: "plugged in" | "gesteckt",
        BriefPortsOff: "ports off" | "Abgänge aus",
        BriefPolarity: "polarity at the far end" | "Polung am fernen Ende",
        BriefProtector: "surge protector fitted" | "Überspannungsschutz eingesetzt",
        BriefDropOfRun: "Drop over the run" | "Spannungsfall über den Strang",
        BriefPulledEach: "Each length in, labelled at both ends" | "Jede Länge verlegt, an beiden Enden beschriftet",
        ShortFittedEach:
            "At the end of each run: short-circuit its conductors, and see that they are joined through at every stop."
            | "Am Ende jedes Strangs: Adern kurzschließen; an jeder Stelle dazwischen müssen sie durchverbunden sein.",
        ShortRemovedEach:
            "At the end of each run: take the short-circuit off again."
            | "Am Ende jedes Strangs: den Kurzschluss wieder entfernen.",
        BriefVoltage: "Voltage" | "Spannung",
        BriefPulled: "in, labelled" | "verlegt, beschriftet",
        BriefRelease: "release, volume" | "Freigabe, Lautstärke",
        BriefLightSupplyOff: "light's own mains off (lock not fed by it)" | "Netz der Leuchte aus (Schloss nicht daran)",
        BriefRunsOff: "runs off, mains on" | "Stränge abgeklemmt, Netz ein",
        BriefSetHere: "set" | "gestellt",
        BriefSet: "switches set" | "Schalter gestellt",
        BriefStandby: "Standby" | "Ruhe",
        BriefInStandby: "standby, heaters off" | "Ruhe, Heizungen aus",
        BriefSystemOff: "mains and battery off" | "Netz und Batterie aus",
        BriefWithoutPower: "behaves as stated without power" | "ohne Strom wie angegeben",
        BriefSystemOn: "on again" | "wieder ein",
        BriefWired: "wired as drawn, no short" | "wie gezeichnet, kein Kurzschluss",
        BriefWiredDiode: "wired as drawn, diode: bar at +, no short" | "wie gezeichnet, Ring an +, kein Kurzschluss",
        BriefReleaseTime: "Release time, by stopwatch:" | "Freigabezeit, mit der Stoppuhr:",
        StripBreaksNothing: "free: a break releases nothing" | "frei: Unterbrechung gibt nichts frei",
        StripCableNotStated: "not in the plan: note it below" | "nicht im Plan: unten notieren",
        StripEndOfChain: "chain ends here" | "Kette endet hier",
        StripExistingColours: "note the colour found" | "vorgefundene Farbe notieren",
        StripExistingColoursOfCode:
            "note the colour found (in brackets: by its code)"
            | "vorgefundene Farbe notieren (in Klammern: laut Farbcode)",
        StripLockFedElsewhere: "free: lock fed elsewhere" | "frei: Schloss anders gespeist",
        StripMains: "mains: licensed electrician" | "Netz: Elektrofachkraft",
        StripNotUsedByLock: "free, not for this lock" | "frei, nicht für dieses Schloss",
        StripCoilNeedsSuppressor:
            "diode across, bar at A1, unless built in"
            | "Diode parallel, Ring an A1, falls nicht eingebaut",
        StripCommandOfRelay:
            "command of that relay: as its maker's sheet; note it"
            | "Befehl an das Relais: nach Herstellerblatt; notieren",
        StripContactLeftFree:
            "free: the relay on the secure side releases"
            | "frei: Relais auf der gesicherten Seite gibt frei",
        StripScreenEarthed: "screen: earth here only" | "Schirm: nur hier erden",
        StripScreenInsulated: "screen: cut back, insulate" | "Schirm: kürzen, isolieren",
        StripScreenJoinedOn: "screen: join on, insulate" | "Schirm: durchverbinden, isolieren",
        StripToMainEarth:
            "shortest way, size assumed, licensed electrician"
            | "kürzester Weg, Querschnitt angenommen, Elektrofachkraft",
        StripToMainEarthAsStated: "shortest way, licensed electrician" | "kürzester Weg, Elektrofachkraft",
        CardContinued: "(continued)" | "(Fortsetzung)",
        CardCupboard: "Cupboard" | "Verteilung",
        CardLanding: "Landing" | "Geschoss",
        CardLegend:
            "Terminals: colour (IEC 60757, by convention; write down what differs), cable, → other end. Figures: expected, lowest, highest; outside the range, stop and look."
            | "Klemmen: Farbe (IEC 60757, nach Übereinkunft; Abweichung notieren), Leitung, → anderes Ende. Werte: erwartet, mindestens, höchstens; außerhalb davon anhalten und suchen.",
        CardLegendMixed:
            "Terminals: colour (IEC 60757, as the catalogue names it, else by convention; write down what differs), cable, → other end. Figures: expected, lowest, highest; outside the range, stop and look."
            | "Klemmen: Farbe (IEC 60757, nach dem Katalog, sonst nach Übereinkunft; Abweichung notieren), Leitung, → anderes Ende. Werte: erwartet, mindestens, höchstens; außerhalb davon anhalten und suchen.",
        CardLegendOfCatalogue:
            "Terminals: colour (IEC 60757, as the catalogue names it; write down what differs), cable, → other end. Figures: expected, lowest, highest; outside the range, stop and look."
            | "Klemmen: Farbe (IEC 60757, nach dem Katalog; Abweichung notieren), Leitung, → anderes Ende. Werte: erwartet, mindestens, höchstens; außerhalb davon anhalten und suchen.",
        CardPowerOff: "Power off" | "Spannungsfrei",
        CardPowerOn: "Power on" | "Unter Spannung",
        ConnectorSits:
            "Sits beside the relay where that has a cable of its own, never at the panel then; else beside the door station. Closed box, out of reach."
            | "Sitzt beim Relais, wo dieses eine eigene Leitung hat, dann nie am Tableau; sonst bei der Türstation. Geschlossene Dose, unzugänglich.",
        DoorAndLocks: "Door and locks" | "Tür und Schlösser",
        JobCardsTitle: "Job cards" | "Arbeitskarten",
        OnJobCards: "job cards" | "Arbeitskarten",
        SparePairsKept:
            "Spare pairs: leave them long enough to reach every terminal, coil them up, insulate each conductor by itself, label them spare at both ends."
            | "Freie Paare: lang genug für jede Klemme lassen, aufrollen, jede Ader für sich isolieren, an beiden Enden als frei beschriften.",
        OrderOfWorkNote:
            "What is done at a place stands on its job card, with terminals, figures and boxes. Work through the stages in order; within a stage, from card to card as given."
            | "Was an einem Ort zu tun ist, steht auf seiner Arbeitskarte, mit Klemmen, Werten und Kästchen. Die Abschnitte der Reihe nach; innerhalb eines Abschnitts von Karte zu Karte wie angegeben.",
        OrderOfWorkTitle: "Order of work" | "Arbeitsablauf",
        }
    };
}

pub(super) use job_cards;
