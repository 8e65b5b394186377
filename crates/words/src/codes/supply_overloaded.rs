//! `supply-overloaded`

code! {
    "supply-overloaded"
    title: "More current or power than a supply is rated for" | "Mehr Strom oder Leistung, als ein Netzteil leistet",
    short: "supply overloaded" | "Netzteil überlastet",
    message:
        "{element} must give {value} but is rated for {limit}, {state}"
        | "{element} muss {value} geben und ist für {limit} bemessen ({state})",
    label: "<model {model}>" | "<Modell {model}>",
    hint:
        "take a larger supply, or a second one for some runs"
        | "ein größeres Netzteil nehmen, oder ein zweites mit eigenem Teil des Gebäudes",
    measure:
        "The current and the voltage at the supply's output in standby, with calls, and in the first half minute after switching on."
        | "Strom und Spannung am Ausgang des Netzteils in Ruhe, mit Rufen und in der ersten halben Minute nach dem Einschalten.",
    english:
        /// # What it checks
        /// The largest current that a supply is asked for, over all operating states and admissible sets
        /// of calls, against its rated current, and its power against its rated power; for a regenerating box, its output
        /// power.
        ///
        /// # Why it matters
        /// A supply at its limit lets the voltage fall or switches off and on. It usually shows when mains returns and every
        /// station boots at once.
        ///
        /// # Example
        /// 40 heavy stations ask for 2.9 A at power return; the supply gives 2.5 A.
        ///
        /// # What to do
        /// A larger supply if the family has one, or a second one with its own part of the building.
    german:
        /// # Was geprüft wird
        /// Den größten Strom, der von einem Netzteil verlangt wird, über alle Betriebszustände und zulässigen
        /// Mengen von Rufen, gegen seinen Nennstrom, und seine Leistung gegen seine Nennleistung; bei einem
        /// Verteiler mit eigener Ausgangsspannung dessen Ausgangsleistung.
        ///
        /// # Warum es zählt
        /// Ein Netzteil an seiner Grenze lässt die Spannung fallen oder schaltet ab und an. Meist zeigt es sich,
        /// wenn das Netz wiederkehrt und jede Station zugleich startet.
        ///
        /// # Beispiel
        /// 40 schwere Stationen verlangen bei Netzwiederkehr 2,9 A; das Netzteil gibt 2,5 A.
        ///
        /// # Was zu tun ist
        /// Ein größeres Netzteil, wenn die Familie eines hat, oder ein zweites mit eigenem Teil des Gebäudes.
}
