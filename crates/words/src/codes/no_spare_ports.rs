//! `no-spare-ports`

code! {
    "no-spare-ports"
    title: "Fewer free ports than the policy asks for" | "Weniger freie Abgänge, als die Vorgabe verlangt",
    short: "too few free ports" | "zu wenige freie Abgänge",
    message:
        "box {element} has {value} of its {ports:port|ports} free; the policy asks for {limit}"
        | "Am Verteiler {element} sind {value} von {ports} Abgängen frei; die Vorgabe ist {limit}",
    label: "<model {model}>" | "<Modell {model}>",
    hint:
        "take a distributor with more ports, add one, or change spare_ports under [policy]"
        | "einen Verteiler mit mehr Abgängen, einen weiteren, oder spare_ports unter [policy] ändern",
    english:
        /// # What it checks
        /// With `spare_ports` under `[policy]`, that every distributor from whose ports dwellings are fed keeps at
        /// least so many ports free. A head distributor that feeds others, doors and desks only is left out.
        ///
        /// # Why it matters
        /// The next flat, or the run that has to be divided after all, needs a port.
        ///
        /// # Example
        /// A-D1 has four ports, all in use; one is to be kept free.
        ///
        /// # What to do
        /// Take a distributor with more ports, add one, or change the policy.
    german:
        /// # Was geprüft wird
        /// Mit `spare_ports` unter `[policy]`: dass jeder Verteiler, von dessen Abgängen Wohnungen gespeist werden,
        /// wenigstens so viele Abgänge frei behält. Ein Hauptverteiler, der nur andere Verteiler, Türen und
        /// Zentralen speist, bleibt außen vor.
        ///
        /// # Warum es zählt
        /// Die nächste Wohnung, oder der Strang, der doch geteilt werden muss, braucht einen Abgang.
        ///
        /// # Beispiel
        /// A-D1 hat vier Abgänge, alle belegt; einer soll frei bleiben.
        ///
        /// # Was zu tun ist
        /// Einen Verteiler mit mehr Abgängen nehmen, einen hinzufügen, oder die Vorgabe ändern.
}
