//! `light-output-overloaded`

code! {
    "light-output-overloaded"
    title: "The lights draw more than the door station's output gives" | "Die Leuchten ziehen mehr, als der Ausgang der Türstation gibt",
    short: "light output overloaded" | "Lichtausgang überlastet",
    message:
        "the {lights:light|lights} of {element} draw {value}; the light output of {station} gives {limit}"
        | "Die {lights:Leuchte|Leuchten} von {element} ziehen {value}; der Leuchtenausgang von {station} gibt {limit}",
    hint: "feed them from a supply of their own" | "aus eigenem Netzteil speisen",
    measure:
        "The current and the voltage at the output with all lights on; then with all but one taken off."
        | "Strom und Spannung am Ausgang mit allen Leuchten; dann mit nur einer.",
    english:
        /// # What it checks
        /// The current of all lights that hang on a door station's light output, all of them on, against the
        /// `light_output_current` of its model. A model that states no such current is not judged.
        ///
        /// # Why it matters
        /// The output folds back, and all lights go dim together; or it takes the door station down with it.
        ///
        /// # Example
        /// Two porch lights of 3 W at 12 V, 0.5 A in all, on an output of 0.3 A.
        ///
        /// # What to do
        /// Fewer or weaker lights, or a supply of their own (`feed = "own-supply"`).
    german:
        /// # Was geprüft wird
        /// Den Strom aller Leuchten am Leuchtenausgang einer Türstation, alle eingeschaltet, gegen
        /// `light_output_current` ihres Modells. Ein Modell, das keinen solchen Strom nennt, wird nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Der Ausgang regelt zurück, und alle Leuchten werden zusammen dunkel; oder er reißt die Türstation mit.
        ///
        /// # Beispiel
        /// Zwei Außenleuchten zu 3 W an 12 V, zusammen 0,5 A, an einem Ausgang für 0,3 A.
        ///
        /// # Was zu tun ist
        /// Weniger oder schwächere Leuchten, oder ein eigenes Netzteil (`feed = "own-supply"`).
}
