//! Commissioning.

/// Hands these rows and those before them on to the next table.
macro_rules! commissioning {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        AllRunsOff:
            "Take every run off the outputs, switch the mains on."
            | "Alle Leitungen von den Ausgängen abklemmen, Netz einschalten.",
        BatteryTakesOver:
            "Switch the mains off: the system stays on. Switch it on again."
            | "Netz ausschalten: Die Anlage läuft weiter. Wieder einschalten.",
        BeforePowerNote:
            "Nothing is under power on this sheet. Work from top to bottom."
            | "Auf diesem Blatt steht nichts unter Spannung. Von oben nach unten arbeiten.",
        BeforePowerTitle: "Commissioning before power" | "Inbetriebnahme vor dem Einschalten",
        ChangeCredentials:
            "Change every factory code and password. Do not write the new ones on this sheet."
            | "Alle werkseitigen Codes und Passwörter ändern. Die neuen nicht auf dieses Blatt schreiben.",
        CompareDeviceList:
            "Have the system list its devices; hold the list against the device schedule: none missing, none unexpected, none twice."
            | "Die Anlage ihre Geräte auflisten lassen; die Liste mit der Geräteliste vergleichen: keines fehlt, keines ist fremd, keines doppelt.",
        CornersMeaning:
            "Lowest and highest: the nominal calculation repeated with every tolerance (supply, cable, length, temperature, loads) against the voltage, then with every tolerance for it."
            | "Kleinster und größter Wert: die Nennrechnung wiederholt mit allen Toleranzen (Netzteil, Leitung, Länge, Temperatur, Lasten) gegen die Spannung, dann mit allen dafür.",
        DisconnectBattery: "Disconnect the battery." | "Batterie abklemmen.",
        EscapeWithoutSystem:
            "With the system off, the door opens from inside with one action, without a key."
            | "Bei ausgeschalteter Anlage öffnet die Tür von innen mit einem Griff, ohne Schlüssel.",
        ExpectedValue: "Expected" | "Erwartet",
        FireInterlockTest:
            "With the responsible person: the fire alarm's contact releases the door."
            | "Mit der verantwortlichen Person: Der Kontakt der Brandmeldeanlage (BMA) gibt die Tür frei.",
        HandOver:
            "Fill in the handover record together with the owner."
            | "Die Übergabe mit dem Eigentümer gemeinsam ausfüllen.",
        Highest: "Highest" | "Höchstens",
        IsolateMains:
            "Isolate from the mains and secure against switching on."
            | "Vom Netz freischalten und gegen Wiedereinschalten sichern.",
        LeaveTidy:
            "Close the boxes, tidy the cables, take the rubbish along."
            | "Dosen schließen, Leitungen ordnen, Abfall mitnehmen.",
        LedNote:
            "Currents are those of standby by day, all devices beyond the run booted and nobody calling; wait until the reading stands still."
            | "Ströme gelten für Ruhe bei Tag, alle Geräte dahinter hochgefahren, kein Ruf; warten, bis die Anzeige steht.",
        LimitThere: "Limit there" | "Grenzwert dort",
        LiveNote:
            "Work from top to bottom. A reading outside its range is looked into before the next step."
            | "Von oben nach unten arbeiten. Ein Messwert außerhalb seines Bereichs wird vor dem nächsten Schritt geklärt.",
        LiveTitle: "Commissioning with power" | "Inbetriebnahme unter Spannung",
        LockVoltage:
            "Voltage at the lock while it is energised"
            | "Spannung am Schloss, während es bestromt ist",
        LockWithoutPower:
            "Without power the lock does what the door sheet says."
            | "Ohne Strom verhält sich das Schloss, wie das Türdatenblatt sagt.",
        Lowest: "Lowest" | "Mindestens",
        MeasureLockLoop:
            "Loop resistance of the cable, short-circuited at the lock"
            | "Schleifenwiderstand der Leitung, am Schloss kurzgeschlossen",
        MountAndWire:
            "Mount; wire by the wiring schedule; pull at every conductor."
            | "Montieren; nach Klemmenplan verdrahten; an jeder Ader ziehen.",
        NoShortAtOutput:
            "No short circuit between + and − of the runs, and none to earth."
            | "Kein Kurzschluss zwischen + und − der Leitungen und keiner gegen Erde.",
        NobodyCalls:
            "No entrance calls this station: see the snag list."
            | "Kein Eingang ruft diese Station: siehe Mängelliste.",
        NoteVersions:
            "Write the versions of all devices into the handover record."
            | "Versionen aller Geräte im Übergabeprotokoll festhalten.",
        OhmmeterNote:
            "Ohmmeters do not see through the bridge of a station: disconnect the electronics, join the loop-through terminals, and short the far end for a loop reading. Ranges: coldest to hottest conductor, all tolerances; take off the resistance of the test leads."
            | "Ohmmeter sehen nicht durch den Gleichrichter einer Station: Elektronik abklemmen, Durchschleifklemmen verbinden und für die Schleifenmessung das ferne Ende kurzschließen. Bereiche: kälteste bis wärmste Ader, alle Toleranzen; Widerstand der Messleitungen abziehen.",
        OpenCircuitVoltage:
            "Voltage at the output, nothing connected"
            | "Spannung am Ausgang, nichts angeschlossen",
        ProveDead: "Prove dead at the terminals." | "Spannungsfreiheit an den Klemmen feststellen.",
        Reading: "Reading" | "Messwert",
        ReleaseAndVolume:
            "The release opens the door; volume and ringing tone set as the resident likes."
            | "Die Freigabe öffnet die Tür; Lautstärke und Rufton nach Wunsch des Bewohners.",
        RunWithoutSupply:
            "No supply reaches this run: see the snag list."
            | "Kein Netzteil erreicht diesen Strang: siehe Mängelliste.",
        SetClock: "Set date and time." | "Datum und Uhrzeit stellen.",
        StageBatteries: "K. Batteries" | "K. Batterien",
        StageCheck: "D. Check before power" | "D. Prüfen vor dem Einschalten",
        StageDeviceList: "H. Device list" | "H. Geräteliste",
        StageDoors: "J. Doors and locks" | "J. Türen und Schlösser",
        StageFinish: "L. Finish" | "L. Abschluss",
        StageFirstStart: "G. First start" | "G. Erster Start",
        StageIsolate: "A. Isolate and prove dead" | "A. Freischalten und Spannungsfreiheit feststellen",
        StagePowerUp: "E. Power up, run by run" | "E. Einschalten, Strang für Strang",
        StageReadings: "F. Readings with everything connected" | "F. Messwerte, alles angeschlossen",
        StageSet: "C. Set" | "C. Einstellen",
        StageStations:
            "I. Every station: voltage, call, picture, speech, release, volume"
            | "I. Jede Station: Spannung, Ruf, Bild, Sprache, Freigabe, Lautstärke",
        StageWire: "B. Wire" | "B. Verdrahten",
        StandbyHighest: "Standby highest" | "Ruhe höchstens",
        StandbyLowest: "Standby lowest" | "Ruhe mindestens",
        StandbyMeaning:
            "Standby: by day, everything connected and booted, nobody calling."
            | "Ruhe: bei Tag, alles angeschlossen und hochgefahren, kein Ruf.",
        StandbyNominal: "Standby nominal" | "Ruhe nominal",
        StandbyVoltageHere: "Voltage at the terminals in standby" | "Spannung an den Klemmen in Ruhe",
        Step: "Step" | "Schritt",
        TryExitButton: "The exit button opens." | "Der Türöffnertaster öffnet.",
        VoltagesTitle: "Expected voltages" | "Erwartete Spannungen",
        WaitForBoot: "Wait until every device has booted." | "Warten, bis alle Geräte hochgefahren sind.",
        WhatToDo: "What to do" | "Was zu tun ist",
        WholeCurrent: "Current of the whole supply in standby" | "Strom des ganzen Netzteils in Ruhe",
        WorstLowest: "Lowest there" | "Mindestens dort",
        WorstNominal: "Nominal there" | "Nominal dort",
        WorstState: "Worst state" | "Ungünstigster Zustand",
        }
    };
}

pub(super) use commissioning;
