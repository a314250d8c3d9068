import { z } from 'zod';
import { boardsOfGrade, HARDWOOD_GRADES } from '../stock/hardwood-grades.ts';
import { offerSchema } from './board-schema.ts';

/**
 * An offer by grade instead of by size: `{ "id", "species", "grade", "nominal", "price" }` stands for boards of the
 * least width of the grade in every standard length. Becomes one offer for each length.
 */
export const gradedOfferSchema = z
  .strictObject({
    id: z.string().trim().min(1).max(50),
    species: offerSchema.in.shape.species,
    grade: z
      .enum(HARDWOOD_GRADES)
      .describe('Grade of hardwood: its least width and standard lengths are counted on.'),
    nominal: offerSchema.in.shape.nominal.unwrap(),
    thickness: offerSchema.in.shape.thickness,
    quantity: offerSchema.in.shape.quantity,
    price: offerSchema.in.shape.price,
  })
  .transform(({ grade, id, ...rest }) =>
    boardsOfGrade(grade).map(({ feet, length, width }) =>
      offerSchema.parse({ ...rest, id: `${id} ${feet} ft`, length, width }),
    ),
  );
