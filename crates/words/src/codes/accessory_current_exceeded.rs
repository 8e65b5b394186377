//! `accessory-current-exceeded`

code! {
    "accessory-current-exceeded"
    title: "The modules of a door station draw more than it gives" | "Die Module einer Türstation ziehen mehr, als sie gibt",
    short: "modules draw too much" | "Module ziehen zu viel",
    message:
        "the {modules:module|modules} of {element} draw {value}; {model} gives {limit}"
        | "{modules:Modul zieht|Module ziehen} an {element} zusammen {value}; {model} gibt {limit}",
    hint:
        "leave a module out, or take one that draws less"
        | "ein Modul weglassen, oder eines nehmen, das weniger zieht",
    measure:
        "The voltage at the last module of the chain with all buttons lit, and again with half of the modules taken off."
        | "Die Spannung am letzten Modul der Kette mit allen Tastern beleuchtet, und noch einmal mit der halben Kette.",
    english:
        /// # What it checks
        /// The current of all modules in a door station's chain, with their illumination at night, against the
        /// `accessory_current` of the door station's model. A model that does not state it is not judged.
        ///
        /// # Why it matters
        /// The connector is fed from a small converter inside. It holds by day and gives way on the first evening,
        /// when all the buttons light up.
        ///
        /// # Example
        /// Keypad 60 mA, reader 90 mA and five button modules of 40 mA make 350 mA; the door station gives 300 mA.
        ///
        /// # What to do
        /// Leave a module out, take one with less illumination, or feed the modules from a supply of their own where
        /// the family provides for that.
    german:
        /// # Was geprüft wird
        /// Der Strom aller Module in der Kette einer Türstation, mit ihrer Beleuchtung bei Nacht, gegen
        /// `accessory_current` des Modells der Türstation. Ein Modell, das ihn nicht nennt, wird nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Der Anschluss wird von einem kleinen Wandler in der Station gespeist. Bei Tag hält er, und am ersten
        /// Abend, wenn alle Tasten leuchten, gibt er nach.
        ///
        /// # Beispiel
        /// Codetastatur 60 mA, Leser 90 mA und fünf Tastenmodule zu 40 mA sind 350 mA; die Türstation gibt 300 mA.
        ///
        /// # Was zu tun ist
        /// Ein Modul weglassen, eines mit weniger Beleuchtung nehmen, oder die Module aus eigenem Netzteil speisen,
        /// wo die Gerätefamilie das vorsieht.
}
