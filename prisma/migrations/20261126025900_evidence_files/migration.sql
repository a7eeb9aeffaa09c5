-- What a file of evidence was called when it was handed in; the table's rules of row and right cover the column.
ALTER TABLE "corrective_evidence" ADD COLUMN "file_name" TEXT;
