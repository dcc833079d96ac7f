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
Free calcium                 0.13 mmol/kg of 0.48 dissolved
Protons taken by alkalinity  1 %
Protons taken by gum         9 %
Stomach acid to pH 3         2.0 mmol per serving

calcium ratio  R2 available  R2 total   R_G
-------------------------------------------
alginate               0.02      0.04  0.01
HM pectin              0.02      0.04

WILL IT SET
In the pouch    smooth sheared gel - by acid, alginate and HM pectin, grade C
In the stomach  soft set, fragile - by acid, alginate and HM pectin, grade B

route                texture             may also  grade  rule
--------------------------------------------------------------------------------
calcium and          thick                         C      calcium-alginate.3.1
alginate
acid and alginate    pours                         B      acid-alginate.1.1
acid, alginate and   smooth sheared gel            C      acid-alginate-pectin.5
HM pectin
sugar, acid and HM   pours                         A      sugar-acid-pectin.0.4
pectin
- Grade C is judgement: test it on the bench first.
