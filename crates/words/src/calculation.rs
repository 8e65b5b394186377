//! Lines of calculation sheets: what is calculated, by which formula, from what, and where the formula is from.

use crate::key_names::KeyName;
use crate::row::{kebab, sentences, words};
use latchline_finding::{Both, Figure};

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
        CapacityCountedOn: "capacity after age and cold" | "Kapazität nach Alterung und Kälte",
        BatteryCurrent: "battery current" | "Batteriestrom",
        CurrentWithCalls: "current with calls" | "Strom mit Rufen",
        StandbyHours: "hours in standby" | "Stunden in Ruhe",
        CapacityByAnnex: "capacity by BS 5839-1's method" | "Kapazität nach Art der BS 5839-1",
        CapacityBySum: "capacity by NFPA 72's method" | "Kapazität nach Art der NFPA 72",
        RechargeHours: "hours to recharge" | "Ladezeit",
        MainsCurrent: "mains current" | "Netzstrom",
        Heat: "heat" | "Wärme",
    }
}

impl Quantity {
    /// Its name for programs, in kebab case.
    pub fn name(self) -> String {
        kebab(&format!("{self:?}"))
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
        NominalVoltageAtLock:
            "V = Vn - R I, or Vn / (1 + R I / Vr) above rated voltage"
            | "V = Vn - R I, oder Vn / (1 + R I / Vr) über der Nennspannung",
        HighestVoltageAtLock: "V = V'' / (1 + R I / Vr)" | same,
        HighestVoltageOfFeed: "V <= V''" | same,
        LeastSupplyVoltage: "Vs = (Vmin + R I) / (1 - t)" | same,
        SumOfCurrents: "I = sum of Ik" | "I = Summe der Ik",
        Count: "n" | same,
        CapacityCountedOn: "Ce = C / a / F" | same,
        BatteryCurrent: "I = P / (n Vb)" | same,
        CurrentWithCalls:
            "Ie = ((1 - d) I^k + d Ic^k)^(1/k), d = N T / 3600, at most 1"
            | "Ie = ((1 - d) I^k + d Ic^k)^(1/k), d = N T / 3600, höchstens 1",
        CurrentWithCallsAtOnce:
            "Ie = ((1 - d) I^k + d Ic^k)^(1/k), d = N T / 3600 less the whole calls that stand all the time, at most as many at once as the family allows"
            | "Ie = ((1 - d) I^k + d Ic^k)^(1/k), d = N T / 3600 weniger die ganzen Rufe, die ständig stehen, höchstens so viele zugleich, wie die Familie erlaubt",
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
        Key { part: String, key: KeyName }: "{part}: {key}" | same,
        BatteryKey { part: String, key: KeyName }: "{part} battery: {key}" | "Batterie von {part}: {key}",
        Conditions { key: KeyName }: "conditions: {key}" | "Bedingungen: {key}",
        Policy { key: KeyName }: "policy: {key}" | "Vorgaben: {key}",
        Keys { part: String, first: KeyName, second: KeyName }:
            "{part}: {first} and {second}"
            | "{part}: {first} und {second}",
        LoadAtRatedVoltage { light: String }:
            "{light} load at its rated voltage"
            | "{light}: Last bei Nennspannung",
        AdverseCurrent { lock: String, temperature: Figure }:
            "{lock} current through a coil at {temperature}, and 10 %"
            | "{lock}: Strom durch eine Spule bei {temperature}, und 10 %",
        LeastCurrent { lock: String, temperature: Figure }:
            "{lock} current less 10 %, through a coil at {temperature}"
            | "{lock}: Strom weniger 10 %, durch eine Spule bei {temperature}",
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
        LightLoop:
            "the lock's own cable cold, short and at its lower tolerance, joints left out"
            | "die eigene Leitung des Schlosses kalt, kurz und an der unteren Toleranz, ohne Verbindungen",
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
        StandbyAdverse: "standby, every tolerance at its worst" | "Ruhe, alle Toleranzen ungünstigst",
        OneCallFromBattery: "one call, from the battery" | "ein Ruf, aus der Batterie",
        CallsThatAlwaysStand:
            "with the calls that stand all the time, from the battery"
            | "mit den Rufen, die ständig stehen, aus der Batterie",
        OneCallMore: "with one call more, from the battery" | "mit einem Ruf mehr, aus der Batterie",
        StandbyFromBattery: "standby, from the battery" | "Ruhe, aus der Batterie",
        HalfAnHour: "half an hour of the largest load" | "eine halbe Stunde der größten Last",
        LargestFromBattery: "largest load, from the battery" | "größte Last, aus der Batterie",
        AnnexFactor: "1 if C / 20 >= I2, else 1.75" | "1, wenn C / 20 >= I2, sonst 1,75",
        LargestOnMains: "largest load on mains" | "größte Last am Netz",
        LargestAndCharging: "largest load on mains while the battery is charged" | "größte Last am Netz, während die Batterie geladen wird",
    }
}

words! {
    /// Where a formula is from, or what its result is for.
    pub enum FormulaSource {
        Ohm: "Ohm's law; loop is both conductors" | "Ohmsches Gesetz; Schleife ist Hin- und Rückleiter",
        VoltageLaw:
            "Kirchhoff's voltage law; no lock that draws at most I up to Vr gets less"
            | "Kirchhoffs Maschenregel; kein Schloss, das bis Vr höchstens I zieht, bekommt weniger",
        MeterReading:
            "what a meter should read, within its tolerances"
            | "was ein Messgerät bis auf Toleranzen zeigen soll",
        CableNeverRaises: "a cable never raises the voltage" | "eine Leitung hebt nie die Spannung",
        CoilDrawsAtLeast:
            "Kirchhoff's voltage law; no coil that draws at least I at Vr gets more while it is fed"
            | "Kirchhoffs Maschenregel; keine Spule, die bei Vr mindestens I zieht, bekommt mehr, solange sie gespeist wird",
        CablesInSeries:
            "resistances in series; all cables that the lock's current may take"
            | "Widerstände in Reihe; alle Leitungen, über die der Strom des Schlosses fließen kann",
        SolvedForFeed:
            "what the feed must give so that the lock still gets its least voltage"
            | "was die Speisung geben muss, damit das Schloss noch seine kleinste Spannung bekommt",
        CurrentLawModules:
            "Kirchhoff's current law; all modules lit, as at night"
            | "Kirchhoffs Knotenregel; alle Module beleuchtet, wie bei Nacht",
        CurrentLawLights: "Kirchhoff's current law; all lights on" | "Kirchhoffs Knotenregel; alle Leuchten an",
        Count: "count" | "Anzahl",
        Ieee485:
            "IEEE 485, ageing and temperature (check the edition in force)"
            | "IEEE 485, Alterung und Temperatur (gültige Ausgabe prüfen)",
        Energy: "conservation of energy" | "Energieerhaltung",
        Peukert: "Peukert's law, from the capacity at the rated hours" | "Peukerts Gesetz, aus der Kapazität bei der Nennzeit",
        PeukertMean:
            "Peukert's law: the constant current that takes as much out of the battery"
            | "Peukerts Gesetz: der gleichbleibende Strom, der der Batterie ebenso viel entnimmt",
        BatteryAnnex:
            "method of BS 5839-1, battery annex, to compare with the battery fitted; door entry need not meet it"
            | "Verfahren der BS 5839-1, Anhang Batterie, zum Vergleich mit der eingebauten; für Türsprechanlagen nicht verlangt",
        Nfpa72:
            "method of NFPA 72 10.6.7, to compare with the battery fitted; door entry need not meet it"
            | "Verfahren der NFPA 72 10.6.7, zum Vergleich mit der eingebauten; für Türsprechanlagen nicht verlangt",
        Recharge:
            "battery four fifths full again, charge factor 1.2 (common practice); 24 h by EN 54-4 (check the edition in force)"
            | "Batterie wieder zu vier Fünfteln voll, Ladefaktor 1,2 (üblich); 24 h nach EN 54-4 (gültige Ausgabe prüfen)",
        Derating:
            "less power in heat, in a straight line as data sheets give it; compared with the largest load on mains"
            | "weniger Leistung in der Wärme, geradlinig wie in Datenblättern; verglichen mit der größten Last am Netz",
        SinglePhase: "single phase, root mean square" | "einphasig, Effektivwert",
        HeatStays:
            "power lost in the supply; it heats the cupboard"
            | "Verlustleistung des Netzteils; sie wärmt den Schrank",
    }
}
