// The literature numbers of a run. Private.
#pragma once

#include "gelwright/source.hpp"

namespace gelwright::detail {

inline constexpr Datum carry_table[] = {
    {"carry.range-short", 30, "g/h", 0, "carbohydrate, a run of 1 to 2 h", "jeukendrup-2014",
     Standing::from_memory},
    {"carry.range-middle", 60, "g/h", 0, "carbohydrate, a run of 2 to 3 h", "jeukendrup-2014",
     Standing::confirmed},
    {"carry.range-long", 90, "g/h", 0, "glucose and fructose together, a run over 2.5 h",
     "jeukendrup-2014", Standing::confirmed},
    {"carry.middle-from", 2, "h", 0, "the middle range begins", "jeukendrup-2014",
     Standing::confirmed},
    {"carry.long-from", 2.5, "h", 0, "the long range begins", "jeukendrup-2014",
     Standing::from_memory},
    {"carry.glucose-most", 60, "g/h", 0, "one sort of carbohydrate, oxidised at most",
     "jeukendrup-2014", Standing::confirmed},
    {"carry.untried", 90, "g/h", 0, "highest intake advised, of mixed sugars", "jeukendrup-2014",
     Standing::confirmed},
    {"carry.most-wanted", 150, "g/h", 0, "more is a slip of the pen", "judgement",
     Standing::judgement},
    {"carry.most-hours", 24, "h", 0, "one outing", "judgement", Standing::judgement},
    {"carry.fluid-least", 0.4, "L/h", 0, "slow, light runners, cool", "acsm-2007-fluid",
     Standing::from_memory},
    {"carry.fluid-most", 0.8, "L/h", 0, "fast, heavy runners, warm", "acsm-2007-fluid",
     Standing::from_memory},
    {"carry.strength", 8, "%", 0, "carbohydrate of all that goes down, 6 to 8 usual",
     "acsm-2007-fluid", Standing::from_memory},
    {"carry.strength-most", 10, "%", 0, "carbohydrate of a drink, 5 to 10 advised",
     "acsm-2007-fluid", Standing::from_memory},
    {"carry.sweat-sodium", 35.9, "mmol/L", 10.4, "whole body, 506 athletes, predicted",
     "baker-2016", Standing::confirmed},
    {"carry.sweat-least", 0.26, "L/h", 0, "smallest of 506 athletes", "baker-2016",
     Standing::confirmed},
    {"carry.sweat-most", 5.73, "L/h", 0, "largest of 506 athletes", "baker-2016",
     Standing::confirmed},
    {"carry.at-once", 25, "g", 0, "carbohydrate in one go", "judgement", Standing::judgement},
    {"carry.step", 5, "min", 0, "a time a runner can keep to", "judgement", Standing::judgement},
    {"carry.ramp-step", 10, "g/h", 0, "more on each long run", "judgement", Standing::judgement},
    {"carry.fructose", 25, "g/h", 0, "fructose not matched by glucose", "judgement",
     Standing::from_memory},
};

}  // namespace gelwright::detail
