//! `too-many-findings`

code! {
    "too-many-findings"
    title: "Further findings were counted but not listed" | "Weitere Befunde gezählt, aber nicht aufgeführt",
    message:
        "{count:further finding was counted but not listed|further findings were counted but not listed}"
        | "{count:weiterer Befund wurde gezählt, aber nicht aufgeführt|weitere Befunde wurden gezählt, aber nicht aufgeführt}",
    hint: "mend those that are shown and run again" | "die gezeigten beheben und neu prüfen",
    english:
        /// The list is cut after two thousand findings. Mend those that are shown and run again.
    german:
        /// Die Liste endet nach zweitausend Befunden. Die gezeigten beheben und neu prüfen.
}
