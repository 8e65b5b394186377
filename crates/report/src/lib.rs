//! Findings and verdicts as text, JSON and SARIF.
