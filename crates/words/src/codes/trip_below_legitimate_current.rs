//! `trip-below-legitimate-current`

code! {
    "trip-below-legitimate-current"
    title: "A supply or port switches off in normal use" | "Ein Netzteil oder Abgang schaltet in normaler Benutzung ab",
    short: "trips in normal use" | "schaltet zu früh ab",
    message:
        "{element} {acts} at {limit}, but {value} flow in normal use"
        | "{element} {acts} bei {limit}, und im Betrieb dürfen {value} fließen",
    label: "<model {model}>" | "<Modell {model}>",
    hint:
        "<{fewer}, or >a model that trips later"
        | "<{fewer}, oder >ein Modell, das später abschaltet",
    measure:
        "The current at that output up to the moment in which it switches off, with a meter that holds the highest value."
        | "Den Strom an diesem Ausgang bis zum Abschalten, mit einem Messgerät, das den höchsten Wert hält.",
    english:
        /// # What it checks
        /// The largest legitimate current of every supply and port that trips or hiccups, over all operating states and admissible
        /// sets of calls, against its smallest trip current. The catalogue states one trip current, which is taken as the smallest and
        /// the largest.
        ///
        /// # Why it matters
        /// A trip that a busy evening reaches switches a working building off.
        ///
        /// # Example
        /// A-D1.2 trips at 0.35 A; two calls with release ask for 0.41 A.
        ///
        /// # What to do
        /// Fewer stations on the port, or a model that trips later.
    german:
        /// # Was geprüft wird
        /// Den größten zulässigen Betriebsstrom jedes Netzteils und Abgangs, der abschaltet oder taktet, über alle
        /// Betriebszustände und zulässigen Mengen von Rufen, gegen seinen kleinsten Abschaltstrom. Der Katalog
        /// nennt einen Abschaltstrom; er gilt als kleinster und größter.
        ///
        /// # Warum es zählt
        /// Eine Abschaltung, die ein voller Abend erreicht, schaltet ein gesundes Haus ab.
        ///
        /// # Beispiel
        /// A-D1.2 schaltet bei 0,35 A ab; zwei Rufe mit Freigabe verlangen 0,41 A.
        ///
        /// # Was zu tun ist
        /// Weniger Stationen am Abgang, oder ein Modell, das später abschaltet.
}
