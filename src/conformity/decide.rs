use crate::marking::Award;
use crate::quantity::Exact;
use crate::rubric::DecisionRule;

/// What a decision rule makes of the best estimate's award, where a pass has probability
/// `pass`.
///
/// *Rules:* guarded acceptance passes only where the risk of a wrong pass, `1 - pass`, is
/// at most the rubric's; guarded rejection says not yet only where the risk of a wrong
/// refusal, `pass`, is (JCGM 106:2012, 8.3.2 and 8.3.3, with the guard band stated as a
/// probability). Between lies undecided.
pub fn decide(rule: DecisionRule, best: Award, pass: f64) -> Award {
    let share = |risk: Exact| risk.to_f64() / 100.0;
    match (rule, best) {
        (DecisionRule::GuardedAcceptance { risk }, Award::Pass) if 1.0 - pass > share(risk) => {
            Award::Undecided
        }
        (DecisionRule::GuardedRejection { risk }, Award::NotYet) if pass > share(risk) => {
            Award::Undecided
        }
        (_, best) => best,
    }
}
