//! `supply-outputs-exceeded`

code! {
    "supply-outputs-exceeded"
    title: "More runs than a supply has outputs" | "Mehr Stränge, als ein Netzteil Ausgänge hat",
    short: "too many runs" | "zu viele Stränge",
    message:
        "{value} runs start at {element}; its outputs take {limit}"
        | "{value} Strecken beginnen an {element}; seine Ausgänge nehmen {limit}",
    label:
        "<no terminals left at {model}, {outputs:output|outputs}>"
        | "<keine Klemmen mehr an {model}, {outputs:Ausgang|Ausgänge}>",
    hint:
        "start the run at a distributor or another supply, or take a model with more outputs"
        | "die Strecke an einem Verteiler oder einem anderen Netzteil beginnen, oder ein Modell mit mehr Ausgängen nehmen",
    english:
        /// # What it checks
        /// The number of runs that start at each supply against its `outputs`, each of which takes one run unless the model
        /// states `runs_per_output`. Where more than one run starts at a supply whose outputs are not stated, it is not judged.
        ///
        /// # Why it matters
        /// Two conductors under one screw that is made for one work loose; the second is found years later, by its heat or
        /// because half of a building is dark.
        ///
        /// # Example
        /// Three runs on a supply with two outputs: the third has no terminals.
        ///
        /// # What to do
        /// Start the run at a free port of a distributor, take a supply with more outputs, or put a terminal block that is made for
        /// it beside the supply and state what the outputs then take.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Strecken, die an jedem Netzteil beginnen, gegen seine `outputs`, von denen jeder eine Strecke nimmt,
        /// wenn das Modell nicht `runs_per_output` angibt. Wo mehr als eine Strecke an einem Netzteil beginnt, dessen Ausgänge nicht
        /// angegeben sind, wird nicht geurteilt.
        ///
        /// # Warum es zählt
        /// Zwei Adern unter einer Schraube, die für eine gemacht ist, lockern sich; die zweite findet man Jahre später, an ihrer
        /// Wärme oder weil ein halbes Haus dunkel ist.
        ///
        /// # Beispiel
        /// Drei Strecken an einem Netzteil mit zwei Ausgängen: die dritte hat keine Klemmen.
        ///
        /// # Was zu tun ist
        /// Die Strecke an einem freien Abgang eines Verteilers beginnen, ein Netzteil mit mehr Ausgängen nehmen, oder eine dafür
        /// gemachte Klemmleiste daneben setzen und angeben, was die Ausgänge dann nehmen.
}
