//! Commissioning.

/// Hands these rows and those before them on to the next table.
macro_rules! commissioning {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AllRunsOff:
            "Take every run off the outputs, switch the mains on."
            | "Alle Leitungen von den Ausgängen abklemmen, Netz einschalten.",
        Ammeter:
            "ammeter in series"
            | "Amperemeter in Reihe",
        BatteryTakesOver:
            "Switch the mains off: the system stays on. A call from the nearest door works."
            | "Netz ausschalten: Die Anlage läuft weiter, ein Ruf von der nächsten Tür geht.",
        BeforePowerNote:
            "Nothing is under power on this sheet. Work from top to bottom; a reading outside its range is looked into before the next step."
            | "Auf diesem Blatt steht nichts unter Spannung. Von oben nach unten arbeiten; ein Messwert außerhalb seines Bereichs wird vor dem nächsten Schritt geklärt.",
        BeforePowerTitle: "Commissioning before power" | "Inbetriebnahme vor dem Einschalten",
        CapacitanceMeter:
            "capacitance meter"
            | "Kapazitätsmessgerät",
        CapacitanceAssumedNote:
            "Where nobody has stated the capacitance of a cable, a usual one is taken, within 20 % (assumed): its range is as much wider."
            | "Wo niemand die Kapazität je Meter Leitung angegeben hat, ist eine übliche angenommen, auf 20 % genau: Der Bereich ist um so viel weiter.",
        ChangeCredentials:
            "Change every factory code and password. Do not write the new ones on this sheet."
            | "Alle werkseitigen Codes und Passwörter ändern. Die neuen nicht auf dieses Blatt schreiben.",
        CompareDeviceList:
            "Have the system list its devices. Compare the list with the device schedule: none missing, none unexpected, none twice. Stations found:"
            | "Die Anlage ihre Geräte auflisten lassen. Mit der Geräteliste vergleichen: keines fehlt, keines ist fremd, keines doppelt. Gefundene Stationen:",
        ConnectBattery:
            "Battery: look at polarity and fuse, then connect it again."
            | "Batterie: Polung und Sicherung prüfen, dann wieder anklemmen.",
        ConnectLockToSupply:
            "Mains of this supply off again, locked off, its output proved dead; then connect the lock's circuit to it as drawn, poles as marked; mains on again."
            | "Netz dieses Netzteils wieder aus und gegen Wiedereinschalten gesichert, am Ausgang Spannungsfreiheit festgestellt; dann den Schlosskreis wie gezeichnet anschließen, Pole wie bezeichnet; Netz wieder ein.",
        Continuity:
            "continuity tester"
            | "Durchgangsprüfer",
        CornersMeaning:
            "Lowest: every tolerance (supply, cable, length, temperature, loads) pulls the voltage down. Highest: every one pushes it up."
            | "Mindestens: Alle Toleranzen (Netzteil, Leitung, Länge, Temperatur, Lasten) senken die Spannung. Höchstens: Alle heben sie.",
        DelayEndsOnAlarm:
            "With the responsible person, while the delay runs: the fire alarm ends it, the door opens at once, and no new delay begins until it is reset by hand."
            | "Mit der verantwortlichen Person, während die Verzögerung läuft: Der Feueralarm beendet sie, die Tür öffnet sofort, und bis von Hand zurückgestellt ist, beginnt keine neue.",
        DelayEndsWithoutPower:
            "Without power there is no delay: the door opens from inside at once."
            | "Ohne Strom gibt es keine Verzögerung: Die Tür öffnet von innen sofort.",
        DelayLocalCodes:
            "Delayed egress: whether it may be at this door, for how long, with which sign and which signal, is decided by local codes and by those licensed to apply them. These trials do not replace their acceptance."
            | "Verzögerter Ausgang: Ob er an dieser Tür sein darf, wie lange, mit welchem Schild und welchem Signal, entscheiden die örtlichen Vorschriften und wer zu ihrer Anwendung befugt ist. Diese Proben ersetzen keine Abnahme.",
        DisconnectBattery:
            "Disconnect the battery."
            | "Batterie abklemmen.",
        DriveWithoutCommand:
            "Our system is off, the drive's or lift's own power stays on: it gets no command and stays as it is. Its owner tries that its own controls still work."
            | "Unsere Anlage ist aus, die eigene Versorgung von Antrieb oder Aufzug bleibt ein: Es kommt kein Befehl, alles bleibt, wie es ist. Der Eigentümer probiert, dass die eigene Bedienung weiter wirkt.",
        EscapeWithoutSystem:
            "With the system off, the door opens from inside with one action, without a key."
            | "Bei ausgeschalteter Anlage öffnet die Tür von innen mit einem Griff, ohne Schlüssel.",
        ExpectedValue: "Expected" | "Erwartet",
        FireContactStaysFree:
            "This lock stays shut without power, so no contact in its circuit can release it: nothing is joined to the fire alarm here, nothing is tried, nobody signs. What the alarm should release here is for the responsible person to decide (see the findings)."
            | "Dieses Schloss bleibt ohne Strom zu, also kann kein Kontakt in seinem Stromkreis es freigeben: Hier wird nichts an die Brandmeldeanlage (BMA) angeschlossen, nichts probiert, nichts unterschrieben. Was sie hier freigeben soll, entscheidet die verantwortliche Person (siehe Befunde).",
        FireInterlockTest:
            "With the responsible person: the fire alarm's contact releases the door."
            | "Mit der verantwortlichen Person: Der Kontakt der Brandmeldeanlage (BMA) gibt die Tür frei.",
        FitProtector:
            "Surge protector: fit it again, line side to the cable, earth by the shortest way."
            | "Überspannungsschutz: wieder einsetzen, Leitungsseite zur Leitung, Erde auf kürzestem Weg.",
        HandOver:
            "Fill in the handover record together with the owner."
            | "Die Übergabe mit dem Eigentümer gemeinsam ausfüllen.",
        Highest: "Highest" | "Max.",
        Instrument:
            "With"
            | "Messgerät",
        InsulationInstrument:
            "Insulation tester, 250 V: make and number, calibrated until"
            | "Isolationsmessgerät, 250 V: Fabrikat und Nummer, kalibriert bis",
        InsulationTester:
            "insulation tester, 250 V"
            | "Isolationsmessgerät, 250 V",
        IsolateMains:
            "Isolate from the mains, lock off, hang up the notice. The key is with:"
            | "Vom Netz freischalten, gegen Wiedereinschalten sichern, Schild anbringen. Den Schlüssel hat:",
        LeaveTidy:
            "Close the boxes, tidy the cables, take the rubbish along."
            | "Dosen schließen, Leitungen ordnen, Abfall mitnehmen.",
        LedNote:
            "Currents: put the meter in series while the port is off, on a range above the highest figure, its fuse whole. Read when all devices beyond have booted, nobody calls and the figure stands still."
            | "Ströme: Messgerät bei abgeschaltetem Abgang in Reihe schalten, Bereich über dem höchsten Wert, Sicherung heil. Ablesen, wenn alle Geräte dahinter hochgefahren sind, niemand ruft und die Anzeige steht.",
        LightSupplyOff:
            "Mains of this light's own supply off, so that nothing is live at the door. It feeds the light alone: the lock does not depend on it."
            | "Netz des eigenen Netzteils dieser Leuchte aus, damit an der Tür nichts unter Spannung steht. Es speist nur die Leuchte: Das Schloss hängt nicht davon ab.",
        LimitThere: "Limit there" | "Grenzwert dort",
        LiveNote:
            "Work from top to bottom. A reading outside its range is looked into before the next step."
            | "Von oben nach unten arbeiten. Ein Messwert außerhalb seines Bereichs wird vor dem nächsten Schritt geklärt.",
        LiveTitle: "Commissioning with power" | "Inbetriebnahme unter Spannung",
        LockIsOffItsSupply:
            "See that the lock's circuit is off the output of this supply, each conductor insulated."
            | "Nachsehen: Der Schlosskreis ist vom Ausgang dieses Netzteils ab, jede Ader isoliert.",
        LockVoltage:
            "Voltage at the lock while it is energised"
            | "Spannung am Schloss, während es bestromt ist",
        LockWithoutPower:
            "Without power the lock does what its job card (or the door sheet) says."
            | "Ohne Strom verhält sich das Schloss, wie seine Arbeitskarte (oder das Türdatenblatt) sagt.",
        Lowest: "Lowest" | "Min.",
        MainsLostAndBack:
            "Switch the mains off and on again: every device comes back without a hand. Time until the last one is up:"
            | "Netz aus- und wieder einschalten: Jedes Gerät kommt ohne Zutun wieder. Zeit, bis das letzte hochgefahren ist:",
        MainsOfItsOwnOn:
            "Whoever holds the key takes the padlock off and switches its mains on."
            | "Wer den Schlüssel hat, hebt die Sperre auf und schaltet dieses Netz ein.",
        MeasureInsulation:
            "Insulation between the conductors, and of each to earth, far end open. The lowest:"
            | "Isolation zwischen den Adern und jeder gegen Erde, fernes Ende offen. Der kleinste Wert:",
        MeasureLockLoop:
            "Loop resistance of the cable, short-circuited at the lock"
            | "Schleifenwiderstand der Leitung, am Schloss kurzgeschlossen",
        Megohm:
            "Mohm"
            | "MΩ",
        MeterInstrument:
            "Multimeter: make and number, calibrated until"
            | "Multimeter: Fabrikat und Nummer, kalibriert bis",
        MountAndWire:
            "Terminate as the job card (or the wiring schedule) shows, pull at every conductor, mount. The electronics stay unplugged until the polarity is proved."
            | "Nach Arbeitskarte (oder Klemmenplan) anschließen, an jeder Ader ziehen, montieren. Die Geräteeinsätze bleiben abgezogen, bis die Polung geprüft ist.",
        NoShortAtOutput:
            "All electronics plugged in: no short circuit at the output between + and −, and none to earth."
            | "Alle Geräteeinsätze aufgesteckt: kein Kurzschluss am Ausgang zwischen + und − und keiner gegen Erde.",
        NoDropOnLink:
            "This run carries signals alone: without a current there is no drop to read. A bad joint in it shows in the loop resistance before power, and in picture and speech."
            | "Dieser Strang führt nur Signale: Ohne Strom gibt es keinen Spannungsfall zu messen. Eine schlechte Verbindung darin zeigt sich am Schleifenwiderstand vor dem Einschalten und an Bild und Sprache.",
        NotPredicted: "not predicted" | "nicht vorhergesagt",
        NobodyCalls:
            "No entrance calls this station: see the snag list."
            | "Kein Eingang ruft diese Station: siehe Mängelliste.",
        NoteVersions:
            "Write serial numbers and versions into the device schedule."
            | "Seriennummern und Versionen in die Geräteliste eintragen.",
        NothingConnected:
            "No device, box or surge protector is connected. At every stop on the way the conductors are joined through."
            | "Kein Gerät, Verteiler oder Überspannungsschutz ist angeschlossen. An jedem Halt unterwegs sind die Adern durchverbunden.",
        Ohmmeter:
            "ohmmeter"
            | "Ohmmeter",
        OhmmeterNote:
            "An ohmmeter does not see through the rectifier of a station: measure bare ends, before any electronics are fitted. Ranges: coldest to hottest conductor, all tolerances. Subtract the resistance of the test leads."
            | "Ein Ohmmeter sieht nicht durch den Gleichrichter einer Station: blanke Enden messen, ehe Geräteeinsätze aufgesteckt sind. Bereiche: kälteste bis wärmste Ader, alle Toleranzen. Den Widerstand der Messleitungen abziehen.",
        OhmmeterOnly:
            "ohmmeter only"
            | "nur Ohmmeter",
        OldCableMeter:
            "On old cable, use no insulation tester until you have seen every flat on it disconnected: its voltage destroys what is still connected. An ohmmeter's few volts do no harm."
            | "An alten Leitungen kein Isolationsmessgerät, bis jede Wohnung daran sichtbar abgeklemmt ist: Seine Spannung zerstört, was noch daran hängt. Die wenigen Volt eines Ohmmeters schaden nicht.",
        OldSystem:
            "The old system: look for bell transformers, further supplies and feeds borrowed from other circuits. Prove every old conductor dead, against each other and against earth."
            | "Die alte Anlage: nach Klingeltransformatoren, weiteren Netzteilen und Einspeisungen aus anderen Stromkreisen suchen. An jeder alten Ader Spannungsfreiheit feststellen, untereinander und gegen Erde.",
        OpenCircuitVoltage:
            "Voltage at the output, nothing connected"
            | "Spannung am Ausgang, nichts angeschlossen",
        OwnerDisablesFireContact:
            "The fire alarm is another trade's: its owner disables what works this contact, tells whoever receives its alarms, and says so before anybody works here. Said by, when:"
            | "Die Brandmeldeanlage (BMA) gehört einem anderen Gewerk: Ihr Eigentümer schaltet die Ansteuerung dieses Kontakts ab, unterrichtet, wer ihre Meldungen empfängt, und sagt es, bevor hier jemand arbeitet. Gesagt von, wann:",
        OwnerIsolatesGate:
            "The drive is another trade's, has power of its own and may move without warning: stay out of its way. Its owner (or maintainer) secures the leaf, isolates the drive from the mains and from its battery, locks off, and says so before anybody works here. Said by, when:"
            | "Der Antrieb gehört einem anderen Gewerk, hat eigene Versorgung und kann sich unerwartet bewegen: Weg frei halten. Sein Eigentümer (oder dessen Wartung) sichert den Flügel, schaltet den Antrieb von Netz und Batterie frei, sichert gegen Wiedereinschalten und sagt es, bevor hier jemand arbeitet. Gesagt von, wann:",
        OwnerIsolatesLift:
            "The lift is another trade's: open, switch and isolate nothing of it. Its owner (or maintainer) isolates the controller, or opens the control wires at its own terminals, and says so before anybody works on our cable. Said by, when:"
            | "Der Aufzug gehört einem anderen Gewerk: nichts daran öffnen, schalten oder freischalten. Sein Eigentümer (oder dessen Wartung) schaltet die Steuerung frei oder öffnet die Steueradern an seinen Klemmen und sagt es, bevor an unserer Leitung jemand arbeitet. Gesagt von, wann:",
        OwnerSwitchesOn:
            "Its owner (or maintainer) puts it back in service and says so; nobody else does."
            | "Der Eigentümer (oder dessen Wartung) nimmt wieder in Betrieb und sagt es; sonst niemand.",
        PlugIn:
            "Plug the electronics in."
            | "Geräteeinsatz aufstecken.",
        PortsOff:
            "Switch every port off, or take its run off, until that run is connected."
            | "Jeden Abgang ausschalten oder seinen Strang abklemmen, bis dieser Strang an der Reihe ist.",
        ProveDead:
            "Prove dead at the terminals; prove the tester on a known source before and after."
            | "Spannungsfreiheit an den Klemmen feststellen; den Prüfer vorher und nachher an bekannter Quelle prüfen.",
        ProveNoForeignVoltage:
            "With its owner, at the terminals at which our cable ends, and once more before it is joined: no foreign voltage, conductor against conductor and each against earth. Prove the tester on a known source before and after."
            | "Mit dem Eigentümer, an den Klemmen, an denen unsere Leitung endet, und noch einmal vor dem Anschließen: keine Fremdspannung, Ader gegen Ader und jede gegen Erde. Den Prüfer vorher und nachher an bekannter Quelle prüfen.",
        Reading: "Reading" | "Messwert",
        ReentryNote:
            "Before a box, panel or station is opened again: isolate, lock off, prove dead, as at the start."
            | "Bevor ein Verteiler, eine Türstation oder Station wieder geöffnet wird: freischalten, sichern, Spannungsfreiheit feststellen, wie am Anfang.",
        ReleaseAndVolume:
            "The release key works (the doors themselves are tried); volume and ringing tone set as the resident likes."
            | "Die Freigabetaste wirkt (die Türen selbst sind geprüft); Lautstärke und Rufton nach Wunsch des Bewohners.",
        RunWithoutSupply:
            "No supply reaches this run: see the snag list."
            | "Kein Netzteil erreicht diesen Strang: siehe Mängelliste.",
        SetClock: "Set date and time." | "Datum und Uhrzeit stellen.",
        StageBareEnds:
            "Test the bare ends"
            | "Blanke Enden messen",
        StageBatteries:
            "Batteries"
            | "Batterien",
        StageCalls:
            "A call from every door and desk, the weakest first"
            | "Ein Ruf von jeder Tür und Zentrale, der schwächste zuerst",
        StageDeviceList:
            "Device list"
            | "Geräteliste",
        StageDoors:
            "Doors and locks"
            | "Türen und Schlösser",
        StageFinish:
            "Finish"
            | "Abschluss",
        StageFirstStart:
            "First start"
            | "Erster Start",
        StageIsolate:
            "Isolate, lock off, prove dead"
            | "Freischalten, sichern, Spannungsfreiheit feststellen",
        StageMainsLost:
            "Mains lost and back"
            | "Netzausfall und Rückkehr",
        StagePowerUp:
            "Power up, run by run"
            | "Einschalten, Strang für Strang",
        StagePull:
            "Pull and label"
            | "Ziehen und beschriften",
        StageReadings:
            "Readings with everything connected"
            | "Messwerte, alles angeschlossen",
        StageSet:
            "Set, and look for shorts"
            | "Einstellen und auf Kurzschluss prüfen",
        StageStations:
            "Every station: voltage, call, picture, speech, release, volume"
            | "Jede Station: Spannung, Ruf, Bild, Sprache, Freigabe, Lautstärke",
        StageTerminate:
            "Terminate and mount"
            | "Anschließen und montieren",
        StageWho:
            "Who tests, and with what"
            | "Wer misst, und womit",
        StandbyHighest: "Standby highest" | "Ruhe höchstens",
        StandbyLowest: "Standby lowest" | "Ruhe mindestens",
        StandbyMeaning:
            "Standby: by day, everything connected and booted, lights and heaters of the doors off, nobody calling."
            | "Ruhe: bei Tag, alles angeschlossen und hochgefahren, Licht und Heizung der Türen aus, kein Ruf.",
        StandbyNominal: "Standby nominal" | "Ruhe nominal",
        StandbyVoltageHere: "Voltage at the terminals in standby" | "Spannung an den Klemmen in Ruhe",
        Step: "Step" | "Schritt",
        Stopwatch:
            "watch"
            | "Stoppuhr",
        SystemOff:
            "Mains off, and battery off where there is one: the doors are tried without power."
            | "Netz aus, und Batterie ab, wo es eine gibt: Die Türen werden ohne Strom geprüft.",
        SystemOnAgain:
            "Mains on again, battery connected again."
            | "Netz wieder ein, Batterie wieder an.",
        TesterInstrument:
            "Voltage tester: make and number"
            | "Spannungsprüfer: Fabrikat und Nummer",
        TesterName:
            "Name, company"
            | "Name, Firma",
        TwoPeopleNote:
            "Two people, one at each end with a telephone: polarity at a far end, and a drop, whose two voltages are read within a minute. A drop during a call takes somebody at the door as well."
            | "Zu zweit, je einer an einem Ende mit Telefon: Polung am fernen Ende, und ein Spannungsfall, dessen zwei Spannungen binnen einer Minute gemessen werden. Ein Spannungsfall während eines Rufs braucht auch jemanden an der Tür.",
        TryDoorContact:
            "Open and shut the door: what takes the door contact tells both."
            | "Tür öffnen und schließen: Was den Türkontakt auswertet, zeigt beides.",
        TryEmergencyRelease:
            "The emergency release opens; put it back."
            | "Der Nottaster öffnet; zurückstellen.",
        TryExitButton: "The exit button opens." | "Der Türöffnertaster öffnet.",
        VoltageOnBattery:
            "Voltage at the output while the battery carries the system: no less than at the end of discharge, which the catalogue states, no more than on the mains. Then switch the mains on again: nothing drops out"
            | "Spannung am Ausgang, während die Batterie die Anlage speist: nicht weniger als am Entladeschluss laut Katalog, nicht mehr als am Netz. Dann Netz wieder einschalten: Nichts fällt aus",
        VoltageTester:
            "voltage tester"
            | "Spannungsprüfer",
        VoltagesTitle: "Expected voltages" | "Erwartete Spannungen",
        Voltmeter:
            "voltmeter"
            | "Voltmeter",
        WaitForBoot: "Wait until every device has booted." | "Warten, bis alle Geräte hochgefahren sind.",
        WhatToDo: "What to do" | "Was zu tun ist",
        WholeCurrent: "Current of the whole supply in standby" | "Strom des ganzen Netzteils in Ruhe",
        WiredAsDrawn:
            "Wired as drawn, terminal by terminal; no short between its conductors but through the part itself."
            | "Verdrahtet wie gezeichnet, Klemme für Klemme; zwischen den Adern kein Kurzschluss außer durch das Teil selbst.",
        WiredSupplyWithoutLock:
            "Wired as drawn, but the lock's circuit stays off the output, each conductor insulated, until the voltage there has been read; no short at the output."
            | "Verdrahtet wie gezeichnet, aber der Schlosskreis bleibt vom Ausgang ab, jede Ader isoliert, bis dort die Spannung gemessen ist; kein Kurzschluss am Ausgang.",
        WiredToOwner:
            "Wired as drawn on our side; before it is joined: no short between its conductors. The owner of the drive or lift joins it at their terminals."
            | "Auf unserer Seite verdrahtet wie gezeichnet; vor dem Anschließen: kein Kurzschluss zwischen den Adern. An seinen Klemmen schließt der Eigentümer von Antrieb oder Aufzug an.",
        WiredWithDiode:
            "Wired as drawn, terminal by terminal; diode across the lock: bar (cathode) at +; no short at the lock."
            | "Verdrahtet wie gezeichnet, Klemme für Klemme; Diode am Schloss: Ring (Kathode) an +; kein Kurzschluss am Schloss.",
        WorstLowest: "Lowest there" | "Mindestens dort",
        WorstNominal: "Nominal there" | "Nominal dort",
        WorstState: "Worst state" | "Ungünstigster Zustand",
        }
    };
}

pub(super) use commissioning;
