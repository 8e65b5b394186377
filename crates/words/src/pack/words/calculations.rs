//! Calculation sheets.

/// Hands these rows and those before them on to the next table.
macro_rules! calculations {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        MeasuredLoopFormula:
            "R I, R = Rm (1 + k) L / ΣL · r(hot) / r(usual)"
            | "R I, R = Rm (1 + k) L / ΣL · r(warm) / r(üblich)",
        CalculationsNote:
            "First the worst device of every supply, in its worst state with every tolerance at its worst. Then every lock, then every supply."
            | "Zuerst das ungünstigste Gerät jedes Netzteils, im ungünstigsten Zustand mit allen Toleranzen ungünstigst. Dann jedes Schloss, dann jedes Netzteil.",
        CalculationsTitle: "Calculation sheets" | "Berechnungsblätter",
        DropInBox: "Drop inside a box, input to port" | "Spannungsfall in einem Verteiler, Eingang bis Abgang",
        DropInSource: "Drop inside the source" | "Spannungsfall in der Quelle",
        For: "For" | "Für",
        Formula: "Formula" | "Formel",
        Holds: "Good" | "In Ordnung",
        Inputs: "Inputs" | "Eingangswerte",
        NoOperatingPoint: "the voltage collapses" | "Spannung bricht zusammen",
        Quantity: "Quantity" | "Größe",
        Result: "Result" | "Ergebnis",
        Source: "Source" | "Quelle",
        SourceBound:
            "Kirchhoff's voltage law; at least this much (resistive loads are counted with their highest current)"
            | "Kirchhoffs Maschenregel; mindestens so viel (Widerstandslasten mit ihrem größten Strom gerechnet)",
        SourceKirchhoff:
            "Kirchhoff's voltage law, Ohm's law; loop is both conductors"
            | "Kirchhoffs Maschenregel, Ohmsches Gesetz; Schleife ist Hin- und Rückleiter",
        SourceMeasured:
            "loop measured on site, shared out by length; k is its error"
            | "vor Ort gemessene Schleife, nach Länge aufgeteilt; k ist ihr Fehler",
        SourceVoltage: "Lowest voltage of the source" | "Kleinste Spannung der Quelle",
        SymbolsNote:
            "Symbols: r resistance per length of one conductor when hot, L length, a and b tolerances of length and resistance, j ohm per joint, n joints, p pairs in parallel, s and e ohm of surge protection, ΣL length of the whole run, k error of a measured loop, t tolerance of the source."
            | "Formelzeichen: r Widerstand je Länge einer warmen Ader, L Länge, a und b Toleranzen von Länge und Widerstand, j Ohm je Verbindung, n Verbindungen, p Paare parallel, s und e Ohm des Überspannungsschutzes, ΣL Länge des ganzen Strangs, k Fehler einer gemessenen Schleife, t Toleranz der Quelle.",
        VoltageAtTerminals: "Voltage at the terminals" | "Spannung an den Klemmen",
        }
    };
}

pub(super) use calculations;
