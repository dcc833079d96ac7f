exit 0
Scratch pouch, alginate and pectin: citric acid anhydrous for pH 3.8
====================================================================

Reached                      yes
Dose per serving             0.394 g
In the batch                 4.871 g for 12 servings
pH, as sure as the model is  3.8 +- 0.3
Weigh                        48.71 g on the pocket, as 10 % stock
Scale and rounding           0.0 % of the dose: pH from 3.80 to 3.80

WATER PHASE (per kg of all the water in it; estimates)
pH                           3.8 +- 0.3, estimate; sugar above 20 % is outside
                             the checked range
Ionic strength               0.15 mol/kg
Free calcium                 0.13 mmol/kg +- 36 %, of 0.48 dissolved
Protons taken by alkalinity  1 %
Protons taken by gum         9 %
Stomach acid to pH 3         2.0 mmol per serving

calcium ratio  R2 available  R2 total   R_G
-------------------------------------------
alginate               0.02      0.04  0.01
HM pectin              0.02      0.04

WILL IT SET
In the pouch    thick 47 %, smooth flowing gel 43 % (grade C)
In the stomach  gel in pieces or skins over 99 %, one even gel 40 % (grade C)

sets by                       stiffness alone, Pa
-------------------------------------------------
calcium and alginate          none
acid and alginate             0.38
acid, alginate and HM pectin  71
sugar, acid and HM pectin     0.083
- thick: a thick syrup that levels itself.
- smooth flowing gel: a smooth gel that pours in folds, like stirred yoghurt.
- May also: lumps 10 %.
- Through a nozzle: with a squeeze; about as thick as 1600 mPa.s; a 10 mL
  syringe left to run for 10 s keeps 9.9 mL.
- In the stomach: mixed with as much acid stomach fluid for an hour, by the
  model. Pieces or skins: gel where the acid reaches the gum, or what was gel
  already; one even gel: the whole mixture sets.
- On a cold hill (0 degC): smooth flowing gel 45 %, thick 39 %.
- Grade C rests on judgement: test it on the bench first.
