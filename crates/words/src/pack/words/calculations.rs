//! Calculation sheets.

/// Hands these rows and those before them on to the next table.
macro_rules! calculations {
    ($next:ident $($rest:ident)*; $($before:tt)*) => {
        $next! { $($rest)*; $($before)*
        CalculationsNote:
            "Worst device of every supply in its worst state, every tolerance against it; then every lock; then every supply."
            | "Ungünstigstes Gerät jedes Netzteils in seinem ungünstigsten Zustand, alle Toleranzen dagegen; dann jedes Schloss; dann jedes Netzteil.",
        CalculationsTitle: "Calculation sheets" | "Berechnungsblätter",
        DropInBox: "Drop inside a box, input to port" | "Spannungsfall in einem Verteiler, Eingang bis Abgang",
        DropInSource: "Drop inside the source" | "Spannungsfall in der Quelle",
        For: "For" | "Für",
        Formula: "Formula" | "Formel",
        Holds: "Holds" | "Eingehalten",
        Inputs: "Inputs" | "Eingangswerte",
        NoOperatingPoint: "no operating point" | "kein Arbeitspunkt",
        Quantity: "Quantity" | "Größe",
        Result: "Result" | "Ergebnis",
        Source: "Source" | "Quelle",
        SourceBound:
            "Kirchhoff's voltage law; a lower bound (resistive loads are taken at their highest current)"
            | "Kirchhoffs Maschenregel; untere Schranke (Widerstandslasten mit ihrem größten Strom angesetzt)",
        SourceKirchhoff:
            "Kirchhoff's voltage law, Ohm's law; loop is both conductors"
            | "Kirchhoffs Maschenregel, Ohmsches Gesetz; Schleife ist Hin- und Rückleiter",
        SourceMeasured:
            "loop measured on site, shared out by length, k its error"
            | "vor Ort gemessene Schleife, nach Länge aufgeteilt, k ihr Fehler",
        SourceVoltage: "Lowest voltage of the source" | "Kleinste Spannung der Quelle",
        SymbolsNote:
            "Symbols: r ohm per metre of one conductor when hot, L length, a and b tolerances of length and resistance, j ohm per joint, n joints, p pairs in parallel, s and e ohm of surge protection, ΣL length of the whole run, k error of a measured loop, t tolerance of the source."
            | "Formelzeichen: r Ohm je Meter einer warmen Ader, L Länge, a und b Toleranzen von Länge und Widerstand, j Ohm je Verbindung, n Verbindungen, p Paare parallel, s und e Ohm des Überspannungsschutzes, ΣL Länge des ganzen Strangs, k Fehler einer gemessenen Schleife, t Toleranz der Quelle.",
        VoltageAtTerminals: "Voltage at the terminals" | "Spannung an den Klemmen",
        }
    };
}

pub(super) use calculations;
