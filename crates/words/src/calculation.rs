//! Lines of calculation sheets: what is calculated, by which formula, from what, and where the formula is from.

use crate::row::{sentences, words};
use latchline_finding::{Both, Figure, Language};

words! {
    /// What a line calculates.
    pub enum Quantity {
        LoopResistance: "loop resistance" | "Schleifenwiderstand",
        ResistanceOfCircuit: "resistance of circuit" | "Widerstand des Kreises",
        LeastVoltageAtLock: "least voltage at lock" | "kleinste Spannung am Schloss",
        NominalVoltageAtLock: "nominal voltage at lock" | "Nennspannung am Schloss",
        HighestVoltageAtLock: "highest voltage at lock" | "größte Spannung am Schloss",
        LeastSupplyVoltage: "least supply voltage" | "kleinste nötige Speisespannung",
        CurrentOfModules: "current of modules" | "Strom der Module",
        LengthOfChain: "length of chain" | "Länge der Kette",
        CurrentOfLightOutput: "current of light output" | "Strom des Leuchtenausgangs",
        PowerWhenHot: "power when hot" | "Leistung in der Wärme",
        CapacityCountedOn: "capacity counted on" | "angesetzte Kapazität",
        BatteryCurrent: "battery current" | "Batteriestrom",
        CurrentWithCalls: "current with calls" | "Strom mit Rufen",
        StandbyHours: "standby hours" | "Stunden in Ruhe",
        CapacityByAnnex: "capacity by annex" | "Kapazität nach Anhang",
        CapacityBySum: "capacity by sum" | "Kapazität nach Summe",
        RechargeHours: "recharge hours" | "Stunden zum Laden",
        MainsCurrent: "mains current" | "Netzstrom",
        Heat: "heat" | "Wärme",
    }
}

impl Quantity {
    /// Its name for programs, in kebab case.
    pub fn name(self) -> String {
        self.say(Language::English).replace(' ', "-")
    }
}

words! {
    /// A formula with the symbols of its inputs; the sign before `=` or `<=` is that of its result.
    pub enum Formula {
        LoopResistance: "R = 2 r L + 2 n j" | same,
        LoopResistanceOfPairs: "R = (2 r L + 2 n j) / p" | same,
        SumOfResistances: "R = sum of Rk" | "R = Summe der Rk",
        LeastVoltageAtLock:
            "V = V' - R I, or V' / (1 + R I / Vr) above rated voltage"
            | "V = V' - R I, oder V' / (1 + R I / Vr) über der Nennspannung",
        NominalVoltageAtLock: "V = Vn - R I" | same,
        HighestVoltageAtLock: "V <= V''" | same,
        LeastSupplyVoltage: "Vs = (Vmin + R I) / (1 - t)" | same,
        SumOfCurrents: "I = sum of Ik" | "I = Summe der Ik",
        Count: "n" | same,
        CapacityCountedOn: "Ce = C / a / F" | same,
        BatteryCurrent: "I = P / (n Vb)" | same,
        CurrentWithCalls:
            "Ie = ((1 - d) I^k + d Ic^k)^(1/k), d = N T / 3600, at most 1"
            | "Ie = ((1 - d) I^k + d Ic^k)^(1/k), d = N T / 3600, höchstens 1",
        StandbyHours: "t = H (Ce / (I H))^k, at most Ce / I" | "t = H (Ce / (I H))^k, höchstens Ce / I",
        CapacityByAnnex: "C = 1.25 (T1 I1 + D T2 I2)" | "C = 1,25 (T1 I1 + D T2 I2)",
        CapacityBySum: "C = 1.2 (T1 I1 + T2 I2)" | "C = 1,2 (T1 I1 + T2 I2)",
        RechargeHours: "t = 0.8 C 1.2 / Ic" | "t = 0,8 C 1,2 / Ic",
        PowerWhenHot: "Ph = Pr (1 - s (t - tr)), not below 0" | "Ph = Pr (1 - s (t - tr)), nicht unter 0",
        MainsCurrent: "I = P / (n f V)" | same,
        Heat: "Q = P (1/n - 1)" | same,
    }
}

words! {
    /// The symbol of an input.
    pub enum Symbol {
        Ageing: "a" | same,
        AnnexFactor: "D" | same,
        CallCurrent: "Ic" | same,
        CallDuration: "T" | same,
        CallsPerHour: "N" | same,
        Capacity: "C" | same,
        CapacityCountedOn: "Ce" | same,
        ChargingCurrent: "Ic" | same,
        Count: "n" | same,
        Current: "I" | same,
        CurrentOfOne: "Ik" | same,
        DeratingPerKelvin: "s" | same,
        Efficiency: "n" | same,
        Exponent: "k" | same,
        Joint: "j" | same,
        LargestLoadCurrent: "I2" | same,
        LargestLoadHours: "T2" | same,
        LeastVoltage: "Vmin" | same,
        Length: "L" | same,
        LimitTemperature: "tr" | same,
        LowerVoltage: "V'" | same,
        MainsVoltage: "V" | same,
        NominalVoltage: "Vn" | same,
        Pairs: "p" | same,
        Power: "P" | same,
        PowerFactor: "f" | same,
        RatedHours: "H" | same,
        RatedPower: "Pr" | same,
        RatedVoltage: "Vr" | same,
        Resistance: "R" | same,
        ResistanceOfOne: "Rk" | same,
        ResistancePerMetre: "r per metre" | "r je Meter",
        StandbyCurrent: "I1" | same,
        StandbyHours: "T1" | same,
        Temperature: "t" | same,
        TemperatureFactor: "F" | same,
        Tolerance: "t" | same,
        UpperVoltage: "V''" | same,
        VoltageOfBattery: "Vb" | same,
    }
}

sentences! {
    /// Where an input is from.
    pub enum InputSource {
        // Keys of the catalogue and of the site file.
        Key { part: String, key: &'static str }: "{part} {key}" | same,
        Keys { part: String, first: &'static str, second: &'static str }:
            "{part} {first} and {second}"
            | "{part} {first} und {second}",
        LoadAtRatedVoltage { light: String }:
            "{light} load at its rated voltage"
            | "{light} load bei Nennspannung",
        AdverseCurrent { lock: String, temperature: Figure }:
            "{lock} current through a coil at {temperature}, and 10 %"
            | "{lock} current durch eine Spule bei {temperature}, und 10 %",
        HotConductor { cable: String, temperature: Figure }:
            "{cable} at {temperature}, upper tolerance"
            | "{cable} bei {temperature}, obere Toleranz",
        CableTo { part: Both }: "cable: {part}" | "Leitung: {part}",
        // Other lines and what they say of the feed of a lock.
        LineAbove: "the line above" | "die Zeile darüber",
        FirstLine: "the first line" | "die erste Zeile",
        LowestBusVoltage:
            "lowest bus voltage at the station in any state"
            | "kleinste Busspannung an der Station in allen Zuständen",
        LowerEnd { of: Both }: "{of}, lower end" | "{of}, unteres Ende",
        UpperEnd { of: Both }: "{of}, upper end" | "{of}, oberes Ende",
        NominalLoop: "loop with nominal values" | "Schleife mit Nennwerten",
        ToleranceOfFeed: "tolerance of the feed" | "Toleranz der Speisung",
        NominalToLowest: "from its nominal to its lowest voltage" | "von der Nenn- zur kleinsten Spannung",
        // Counts and lengths.
        LengthWithTolerance: "length with its tolerance" | "Länge mit ihrer Toleranz",
        JointsPerConductor: "joints per conductor" | "Verbindungen je Ader",
        PairsInParallel: "pairs in parallel" | "Paare parallel",
        ModulesOfEntrance: "modules of the entrance" | "Module des Eingangs",
        // Batteries and mains.
        Ageing: "ageing, replaced at 80 %" | "Alterung, Tausch bei 80 %",
        TemperatureFactor: "lead-acid, by temperature" | "Blei, nach Temperatur",
        StandbyAdverse: "standby, every tolerance at its worst" | "Ruhe, alle Toleranzen dagegen",
        OneCallFromBattery: "one call, from the battery" | "ein Ruf, aus der Batterie",
        StandbyFromBattery: "standby, from the battery" | "Ruhe, aus der Batterie",
        HalfAnHour: "half an hour of the largest load" | "eine halbe Stunde der größten Last",
        LargestFromBattery: "largest load, from the battery" | "größte Last, aus der Batterie",
        AnnexFactor: "1 if C / 20 >= I2, else 1.75" | "1, wenn C / 20 >= I2, sonst 1,75",
        LargestAndCharging: "largest load with mains, and charging" | "größte Last mit Netz, und Laden",
    }
}

words! {
    /// Where a formula is from, or what its result is for.
    pub enum FormulaSource {
        Ohm: "Ohm's law; loop is both conductors" | "Ohmsches Gesetz; Schleife ist Hin- und Rückleiter",
        VoltageLaw:
            "Kirchhoff's voltage law; lower bound for every lock that draws at most I up to Vr"
            | "Kirchhoffs Maschenregel; untere Schranke für jedes Schloss, das bis Vr höchstens I zieht",
        MeterReading:
            "what a meter should read, give or take its tolerances"
            | "was ein Messgerät bis auf Toleranzen zeigen soll",
        CableNeverRaises: "a cable never raises the voltage" | "eine Leitung hebt nie die Spannung",
        CablesInSeries:
            "resistances in series; all cables that the lock's current may take"
            | "Widerstände in Reihe; alle Leitungen, über die der Strom des Schlosses fließen kann",
        SolvedForFeed:
            "least voltage at the lock, solved for the feed"
            | "kleinste Spannung am Schloss, nach der Speisung aufgelöst",
        CurrentLawModules:
            "Kirchhoff's current law; all modules lit, as at night"
            | "Kirchhoffs Knotenregel; alle Module beleuchtet, wie bei Nacht",
        CurrentLawLights: "Kirchhoff's current law; all lights on" | "Kirchhoffs Knotenregel; alle Leuchten an",
        Count: "count" | "Anzahl",
        Ieee485:
            "IEEE 485, ageing and temperature (table from memory)"
            | "IEEE 485, Alterung und Temperatur (Tabelle aus dem Gedächtnis)",
        Energy: "conservation of energy" | "Energieerhaltung",
        Peukert: "Peukert's law in its rated-time form" | "Peukerts Gesetz in der Form mit Nennzeit",
        PeukertMean:
            "Peukert's law: the constant current that takes as much out of the battery"
            | "Peukerts Gesetz: der gleichbleibende Strom, der der Batterie ebenso viel entnimmt",
        BatteryAnnex:
            "pattern of BS 5839-1, battery annex, for comparison with the capacity fitted; no demand on door entry"
            | "Muster von BS 5839-1, Batterieanhang, zum Vergleich mit der eingebauten Kapazität; keine Forderung an Türsprechanlagen",
        Nfpa72:
            "pattern of NFPA 72 10.6.7, for comparison with the capacity fitted; no demand on door entry"
            | "Muster von NFPA 72 10.6.7, zum Vergleich mit der eingebauten Kapazität; keine Forderung an Türsprechanlagen",
        Recharge:
            "four fifths back, charge factor 1.2 (common practice); 24 h after EN 54-4 (from memory)"
            | "vier Fünftel zurück, Ladefaktor 1,2 (üblich); 24 h nach EN 54-4 (aus dem Gedächtnis)",
        Derating:
            "linear derating as data sheets give it; held against the largest load with mains"
            | "lineare Minderung wie in Datenblättern; gegen die größte Last mit Netz gehalten",
        SinglePhase: "single phase, root mean square" | "einphasig, Effektivwert",
        HeatStays:
            "what does not leave as power stays in the cupboard"
            | "was nicht als Leistung hinausgeht, bleibt im Schrank",
    }
}
